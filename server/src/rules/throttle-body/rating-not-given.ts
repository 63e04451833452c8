import type { Draft, StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/rating-not-given',
  title: 'Not said whether the throttle body stands boost or nitrous',
  severity: 'information',
  why: 'Not every throttle body is made for boost in its bores or for a nitrous plate under it, and finding out after the purchase is expensive. The maker says so; ask before the first stage is bought.',
  inspect: 'Data sheet of the throttle body, or a question to its maker.',
  remedy: 'Write down what the maker says before anything is bought.',
  source: 'common practice',
  check: ({ values, stage, path }) => {
    const body = values['throttle-body'];
    if (!body || Object.keys(body).length === 0) return undefined;
    const drafts: Draft[] = [];
    if (path === 'blow-through' && stage.boost?.value && body['boost-rated'] === undefined)
      drafts.push({
        at: 'throttle-body.boost-rated',
        message: 'Boost is blown through the throttle body, but nothing says that it is rated for boost.',
        related: [{ at: 'stages.boost', message: 'The boost.' }],
        repairs: [{ title: 'Choose one that is rated for boost', set: { 'throttle-body.boost-rated': true } }],
      });
    if (stage.nitrous && body['nitrous-rated'] === undefined)
      drafts.push({
        at: 'throttle-body.nitrous-rated',
        message: 'Nitrous is planned, but nothing says that the throttle body is rated for it.',
        related: [{ at: 'stages.nitrous', message: 'The nitrous.' }],
        repairs: [{ title: 'Choose one that is rated for nitrous', set: { 'throttle-body.nitrous-rated': true } }],
      });
    return drafts;
  },
};
