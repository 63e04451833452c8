import type { PlanRule } from '../rule.ts';

export const rule: PlanRule = {
  id: 'paper/no-road-use-notice',
  title: 'Owner not told about the rules for road use',
  severity: 'warning',
  why: "Changing the fuel system of a road vehicle can need approval, and what is allowed in emissions and noise is the local authority's to decide. The owner has to ask there before the vehicle goes on the road; this sheet cannot answer it.",
  source: 'common practice; local law decides',
  checkPlan: (plan) => {
    const { vehicle, handover } = plan[0]?.values ?? {};
    if (!handover || vehicle?.use !== 'street' || handover['road-use-notice'] === true) return undefined;
    return {
      at: 'handover.road-use-notice',
      message:
        "The vehicle is used on public roads, and the owner has not been told that emissions and noise are the local authority's to decide.",
      related: [{ at: 'vehicle.use', message: 'Used on public roads.' }],
      repairs: [{ title: 'Tell the owner and note it', set: { 'handover.road-use-notice': true } }],
    };
  },
};
