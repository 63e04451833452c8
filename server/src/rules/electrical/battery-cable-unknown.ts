import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'electrical/battery-cable-unknown',
  title: 'Battery in the trunk without a cable on the sheet',
  severity: 'hint',
  why: 'The cable from the trunk decides the voltage the computer sees while cranking, and it is the largest unfused wire of the car. Write down its size and length, and the sheet checks it; a fuse or cut-off close to the battery belongs to it, as local codes say.',
  inspect:
    'Read the gauge printed on the cable, measure the run from the battery to the starter, and see what protects it at the battery end.',
  remedy:
    'Write size and length into the sheet. A battery in the trunk also wants a fuse or cut-off close to it, a box that is fastened and vented, and a ground as thick as the cable; local codes and racing rules say which.',
  source: 'common practice',
  check: ({ values }) => {
    const battery = values.electrical?.battery;
    if (battery?.placement !== 'trunk' || (battery.cable && battery['cable-length'])) return undefined;
    const missing = [battery.cable ? '' : 'size', battery['cable-length'] ? '' : 'length'].filter(
      (word) => word !== '',
    );
    return {
      at: 'electrical.battery',
      message: `The battery is in the trunk, but the ${missing.join(' and ')} of its positive cable ${missing.length > 1 ? 'are' : 'is'} not on the sheet.`,
    };
  },
};
