import { version } from '../../../../package.json';
import { type CheckResult, countsOf, fingerprintsOf } from '../check-result.ts';

/** Grows whenever something that was there is no longer so, or means something else. */
const FORMAT_VERSION = 1;

/** Everything, for programs; `schemas/output/check.schema.json` describes it. */
export function json(result: CheckResult): string {
  const output = {
    version: FORMAT_VERSION,
    tool: { name: 'build-sheet', version },
    summary: {
      files: result.files.length,
      ...countsOf(result),
      open: result.files.reduce((sum, { open }) => sum + open, 0),
      points: result.files.reduce((sum, { points }) => sum + points, 0),
    },
    files: result.files.map(({ path, open, points, told }) => {
      const ids = fingerprintsOf(told);
      return {
        path,
        open,
        points,
        findings: told.map(({ excerpt: _, identity: __, identities: ___, ...finding }, index) => ({
          id: ids[index],
          ...finding,
        })),
      };
    }),
    errors: [...result.complaints, ...result.faults],
  };
  return `${JSON.stringify(output, null, 2)}\n`;
}
