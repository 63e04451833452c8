import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'paper/inspection-not-asked',
  title: 'Local authority not asked about the inspection',
  severity: 'information',
  why: 'Whether a car of this year may have its fuel system changed, and what must stay on it, differs from place to place and changes. A car that is finished and then fails the look at its parts is dear.',
  inspect: 'Ask the authority with the model year from the papers in hand, before parts are bought.',
  remedy: 'Write the answer into the notes with its date, and this field to true.',
  source: 'common practice; the local authority decides',
  checkPlan: ([first]) => {
    const inspection = first?.values.inspection;
    if (inspection?.['authority-asked'] !== false) return undefined;
    const year = first?.values.vehicle?.['model-year'];
    return {
      at: 'inspection.authority-asked',
      message: `Nobody asked the local authority what a ${year === undefined ? 'vehicle' : `vehicle of ${year}`} may have changed: ask before parts are bought.`,
    };
  },
};
