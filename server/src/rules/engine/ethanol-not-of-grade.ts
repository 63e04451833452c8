import type { StageRule } from '../../checking/rule.ts';

/** Most ethanol by volume in gasoline of the pump: 15 % by waiver, ASTM D4814. */
const MOST_IN_GASOLINE = 0.15;
/** Least ethanol by volume in a fuel sold as E85: 51 % in winter, ASTM D5798. */
const LEAST_IN_E85 = 0.51;

export const rule: StageRule = {
  id: 'engine/ethanol-not-of-grade',
  title: 'Ethanol share of another fuel',
  severity: 'warning',
  why: 'A third more fuel runs on ethanol than on gasoline: injectors, pump and lines sized for one of them are wrong for the other, and hoses for gasoline do not stand it.',
  inspect: 'Alcohol tester: shake a measured part of fuel with water and read by how much the water grows.',
  remedy: 'Correct the share, or the kind of fuel.',
  source: 'ASTM D4814 (up to 15 % ethanol by waiver), ASTM D5798 (51 to 83 %), from memory',
  cautions: ['knock'],
  check: ({ values, show }) => {
    const { grade, 'ethanol-share': share } = values.fuel ?? {};
    if (!grade || !share) return undefined;
    const isGasoline = grade === 'gasoline' || grade === 'gasoline-e10';
    const isWrong = isGasoline ? share.value >= LEAST_IN_E85 : grade === 'e85' && share.value <= MOST_IN_GASOLINE;
    if (!isWrong) return undefined;
    const really = isGasoline ? 'e85' : 'gasoline-e10';
    const name = isGasoline ? 'E85' : 'gasoline with ethanol';
    return {
      at: 'fuel.ethanol-share',
      message: `A fuel with ${show(share)} of ethanol is ${name}, not "${grade}".`,
      related: [{ at: 'fuel.grade', message: 'The kind of fuel.' }],
      repairs: [
        { title: 'Leave it out and take the usual share of this fuel', remove: ['fuel.ethanol-share'] },
        { title: `Take it as "${really}"`, set: { 'fuel.grade': really } },
      ],
    };
  },
};
