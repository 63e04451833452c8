import type { Draft, PlanRule, Situation } from '../../checking/rule.ts';

/** How far the speed of the cut may be above the redline, as a share of it. Common practice, from memory. */
const ABOVE = 0.02;
/** How low that speed may be, as for running in. Common practice, from memory. */
const LEAST = 0.5;

export const rule: PlanRule = {
  id: 'engine/computer-told-otherwise',
  title: 'Computer told something else than the sheet says',
  severity: 'error',
  why: 'From cylinders and injectors the computer works out how often and how long to open each of them. Told a wrong number, the engine gets twice or half its fuel from the first turn on; told a redline above that of the engine, nothing holds it when a shift is missed.',
  inspect: 'Go through the first page of its settings with the sheet beside it.',
  remedy:
    'Enter what is on the engine: cylinders, injectors over all throttle bodies, and the redline of the weakest part.',
  source: 'common practice, from memory: a cut at most 2 % above the redline, and not under half of it',
  checkPlan: ([first]) => (first?.values['first-start']?.['computer-told'] ? differences(first) : undefined),
};

function differences({ values, show }: Situation): Draft[] {
  const told = values['first-start']?.['computer-told'];
  const { cylinders, redline } = values.engine ?? {};
  const body = values['throttle-body'];
  const each = body?.injectors?.quantity;
  const injectors = each && each * (body?.quantity ?? 1);
  const drafts: Draft[] = [];
  if (told?.cylinders !== undefined && cylinders !== undefined && told.cylinders !== cylinders)
    drafts.push(draft('cylinders', `${told.cylinders} cylinders`, String(cylinders), cylinders, 'engine.cylinders'));
  if (told?.injectors !== undefined && injectors !== undefined && told.injectors !== injectors)
    drafts.push(
      draft(
        'injectors',
        `${told.injectors} injectors`,
        String(injectors),
        injectors,
        'throttle-body.injectors.quantity',
      ),
    );
  const cut = told?.redline;
  if (cut && redline && (cut.value > redline.value * (1 + ABOVE) || cut.value < redline.value * LEAST))
    drafts.push(draft('redline', `a cut at ${show(cut)}`, show(redline), redline.text, 'engine.redline'));
  return drafts;
}

function draft(
  field: 'cylinders' | 'injectors' | 'redline',
  told: string,
  really: string,
  to: string | number,
  other: 'engine.cylinders' | 'engine.redline' | 'throttle-body.injectors.quantity',
): Draft {
  const at = `first-start.computer-told.${field}` as const;
  return {
    at,
    message: `The computer was told ${told}, but the sheet says ${really}: enter what is on the engine.`,
    related: [{ at: other, message: 'What the sheet says.' }],
    repairs: [{ title: `Enter ${really} into the computer`, set: { [at]: to } }],
  };
}
