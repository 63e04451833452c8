// The running language server as the operating system sees it, to crash it as a defect would.
const { execFileSync } = require('node:child_process');
const { existsSync, readdirSync, readFileSync } = require('node:fs');

function commandLines() {
  if (existsSync('/proc/self/cmdline')) {
    return readdirSync('/proc')
      .filter((entry) => /^\d+$/.test(entry))
      .flatMap((pid) => {
        try {
          return [{ pid: Number(pid), line: readFileSync(`/proc/${pid}/cmdline`, 'utf8') }];
        } catch {
          return []; // it ended meanwhile
        }
      });
  }
  return execFileSync('ps', ['-A', '-o', 'pid=,command='], { encoding: 'utf8' })
    .trim()
    .split('\n')
    .map((row) => ({ pid: Number.parseInt(row, 10), line: row }));
}

/** Process ids of the language server of the extension in `extensionPath`. */
exports.serverProcesses = (extensionPath) =>
  commandLines()
    .filter(({ line }) => line.includes(extensionPath) && line.includes('server.cjs'))
    .map(({ pid }) => pid);
