import { describe, expect, it } from 'vitest';
import { type Checked, checkText } from '../../../server/src/checking/checked.ts';
import type { PlacedFinding } from '../../../server/src/checking/finding.ts';
import type { Severity } from '../../../server/src/checking/rule.ts';
import { sheetDiagnoses } from '../../../server/src/features/diagnostics.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

const MOST = 500;
const checked = checkText('format: 1\nengine: { cylinders: 8 }\n', noHouse);

/** A check with so many findings of each severity, the mildest first. */
function withFindings(counts: Partial<Record<Severity, number>>, problems = checked.sheet.problems): Checked {
  const findings = Object.entries(counts).flatMap(([severity, count]) =>
    Array.from(
      { length: count },
      (_, index): PlacedFinding => ({
        rule: 'plan/overbuilt',
        found: 'plan/overbuilt',
        severity: severity as Severity,
        message: `${severity} ${index}`,
        path: ['engine'],
        related: [],
        repairs: [],
        stages: [0],
        range: { start: 10, end: 16 },
      }),
    ),
  );
  return { ...checked, sheet: { ...checked.sheet, problems }, findings };
}

function told(one: Checked): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { severity, code } of sheetDiagnoses('file:///x.build.yaml', one)) {
    const name = code.startsWith('sheet/') ? 'problem' : severity;
    counts[name] = (counts[name] ?? 0) + 1;
  }
  return counts;
}

describe('more findings than are told', () => {
  it('leave the mildest out, whatever their place', () => {
    const few = withFindings({ hint: 300, information: 300, warning: 200, error: 100 });
    expect(told(few)).toEqual({ error: 100, warning: 200, information: 200 });
    expect(told(withFindings({ hint: 10, error: 600 }))).toEqual({ error: MOST });
    expect(told(withFindings({ hint: 250, warning: 250 }))).toEqual({ hint: 250, warning: 250 });
  });

  it('leave room for all that is wrong with the text', () => {
    const problem = { code: 'sheet/quantity' as const, message: 'wrong', range: { start: 0, end: 6 }, fixes: [] };
    const problems = Array.from({ length: 100 }, () => problem);
    expect(told(withFindings({ hint: 300, error: 399 }, problems))).toEqual({ problem: 100, error: 399, hint: 1 });
  });

  it('are told once where an alias repeats them', () => {
    const twice = withFindings({ error: 1 });
    expect(told({ ...twice, findings: [...twice.findings, ...twice.findings] })).toEqual({ error: 1 });
  });
});
