import { type CheckResult, findingsOf } from '../check-result.ts';
import { harmless } from '../wrap.ts';

/** A line for each finding, as compilers write them; nothing where nothing was found. */
export function concise({ files }: CheckResult): string {
  const lines = files.flatMap((file) =>
    findingsOf(file).map(({ start, severity, rule, message }) =>
      harmless(`${file.path}:${start.line}:${start.column}: ${severity} ${rule}: ${message}`),
    ),
  );
  return lines.map((line) => `${line}\n`).join('');
}
