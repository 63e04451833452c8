import { createHash } from 'node:crypto';
import { type CheckResult, findingsOf, fingerprintsOf } from '../check-result.ts';

const levels = { error: 'critical', warning: 'major', information: 'minor', hint: 'info' } as const;

/** A Code Quality report, as a merge request shows it; each finding is known by file, rule, field and stages. */
export function gitlab({ files, complaints }: CheckResult): string {
  const findings = files.flatMap((file) => {
    const told = findingsOf(file);
    const ids = fingerprintsOf(told);
    return told.map(({ rule, message, severity, start, end }, index) =>
      issue(rule, message, levels[severity], file.path, `${ids[index]}`, { begin: start.line, end: end.line }),
    );
  });
  const unread = complaints.map(({ path = '.', message }) =>
    issue('build-sheet/unread', message, 'blocker', path, message, { begin: 1, end: 1 }),
  );
  return `${JSON.stringify([...unread, ...findings], null, 2)}\n`;
}

function issue(
  name: string,
  description: string,
  severity: string,
  path: string,
  id: string,
  lines: { begin: number; end: number },
) {
  const fingerprint = createHash('sha256').update(`${path}\n${id}`).digest('hex');
  return { description, check_name: name, fingerprint, severity, location: { path, lines } };
}
