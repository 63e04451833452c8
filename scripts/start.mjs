// Shows the main job in the terminal: what eight lines from the phone need and what to ask next, which parts of a shop's
// catalog do it, why the next best do not and what they cost, what waiting costs where a later stage outgrows a part, how far the parts of a sample go, and what is wrong with each sample and how it is repaired; at last where the packed extension is.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';

const folder = process.argv[2] ?? 'samples';

const phoneCall = `format: 1
site: { altitude: 1200 ft }
engine: { cylinders: 8, displacement: 6.05 L }
fuel: { grade: gasoline-e10 }
stages:
  - { name: now, power: 330 hp, induction: natural }
  - { name: in two years, induction: roots }
`;

/** Runs a command line before our eyes; that something is found is no failure. */
function show(args, input = '') {
  console.log(`\n$ build-sheet ${args.join(' ')}${input ? `\n\n${input.trimEnd()}` : ''}\n`);
  const stdio = ['pipe', 'inherit', 'inherit'];
  const { status } = spawnSync(process.execPath, ['dist/build-sheet.cjs', ...args], { stdio, input });
  if (status !== 0 && status !== 1) process.exit(status ?? 3);
}

show(['needs', '-'], phoneCall);
show(['questions', '--most', '10', '-'], phoneCall);
show(['fit', 'samples/counter/counter-call.build.yaml']);
show(['fit', '--slot', 'throttle-body', 'samples/counter/two-summers.build.yaml']);
show(['headroom', 'samples/counter/two-summers.build.yaml']);
show(['check', folder]);

const vsix = 'dist/build-sheet.vsix';
if (existsSync(vsix)) {
  console.log(`\nThe extension is packed in ${vsix} (${(statSync(vsix).size / 1024).toFixed(0)} kB). Install it with`);
  console.log(`  code --install-extension ${vsix}`);
  console.log('or in VS Code: Extensions view, menu "...", "Install from VSIX...". Then open the folder samples/.');
}
