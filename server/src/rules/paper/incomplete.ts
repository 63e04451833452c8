import type { PlanRule } from '../../checking/rule.ts';
import { missingSections } from '../../remedies/main-sections.ts';

export const rule: PlanRule = {
  id: 'paper/incomplete',
  title: 'Sections are missing',
  severity: 'information',
  why: 'What is not on the sheet is not worked out or checked, so no news about it is not good news. A sheet may be short while the build takes shape; before parts are ordered it should be whole.',
  inspect: 'Go through the sheet from tank to tailpipe with the car in front of you.',
  remedy: 'Add the section and leave a field empty where its value is not known yet.',
  source: 'common practice',
  checkPlan: (plan) => {
    const sections = missingSections(plan);
    if (sections.length === 0) return undefined;
    const missing = plan[0]?.values.title === undefined ? ['title', ...sections] : sections;
    return {
      at: 'format',
      message: `Still missing: ${missing.map((section) => `"${section}"`).join(', ')}. What is decided there is not checked yet.`,
    };
  },
};
