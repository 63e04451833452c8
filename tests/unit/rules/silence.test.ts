import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

const points = 'format: 1\nignition: { trigger: contact-points }\n';
const silencer = (rule: string, more = '') => `${points}silence: [{ rule: ${rule}, reason: a try${more} }]\n`;
const found = (text: string, house = noHouse) =>
  checkText(text, house)
    .findings.map(({ rule, severity }) => `${severity} ${rule}`)
    .filter((one) => !one.includes('paper/incomplete'));

describe('silencers', () => {
  it('take away the finding they name, in the stage they name', () => {
    expect(found(points)).toEqual(['error ignition/contact-points']);
    expect(found(silencer('ignition/contact-points'))).toEqual([]);
    expect(found(silencer('ignition/contact-points', ', stage: stage 1'))).toEqual([]);
  });

  it('are told when they name what is not there, or what nothing finds', () => {
    expect(found(silencer('ignition/points'))).toContain('hint paper/unknown-silenced-rule');
    expect(found(silencer('ignition/contact-points', ', stage: later'))).toContain('hint paper/unknown-silenced-stage');
    expect(found(silencer('ignition/ballast'))).toContain('hint paper/unused-silencer');
  });

  it('are told with the severity the house gives, or not at all', () => {
    const rules = { 'paper/unused-silencer': { severity: 'error' as const } };
    expect(found(silencer('ignition/ballast'), { rules })).toContain('error paper/unused-silencer');
    const off = { 'paper/unused-silencer': { severity: 'off' as const, reason: 'drafts' } };
    expect(found(silencer('ignition/ballast'), { rules: off })).toEqual(['error ignition/contact-points']);
  });
});
