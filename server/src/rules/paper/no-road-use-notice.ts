import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'paper/no-road-use-notice',
  title: 'Owner not told about the rules for road use',
  severity: 'warning',
  why: "Changing the fuel system of a road vehicle can need approval, and what is allowed in emissions and noise is the local authority's to decide. The owner has to ask there before the vehicle goes on the road; this sheet cannot answer it.",
  inspect: 'Ask the local authority what a changed fuel system needs before the vehicle goes on the road.',
  remedy: 'Tell the owner in writing, then write it down.',
  source: 'common practice; local law decides',
  checkPlan: (plan) => {
    const { vehicle, handover } = plan[0]?.values ?? {};
    if (!handover || vehicle?.use !== 'street' || handover['road-use-notice'] === true) return undefined;
    return {
      at: 'handover.road-use-notice',
      message:
        "Nobody has told the owner that emissions and noise on the road are the local authority's to decide. Tell the owner, then write it down here.",
      related: [{ at: 'vehicle.use', message: 'Used on public roads.' }],
    };
  },
};
