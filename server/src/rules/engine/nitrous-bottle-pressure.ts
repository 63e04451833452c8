import { above, below, type Draft, type StageRule } from '../../checking/rule.ts';

/** Bottle pressure that jets are chosen for, Pa: 800 to 1,050 psi. Common practice, from memory. */
const LEAST = 800 * 6894.757;
const MOST = 1050 * 6894.757;
const USUAL = '950 psi';

export const rule: StageRule = {
  id: 'engine/nitrous-bottle-pressure',
  title: 'Bottle too cold, too hot, or heated with a flame',
  severity: 'error',
  why: 'The flow of nitrous goes with the pressure of the bottle, while the fuel jet stays as it is: too warm a bottle makes the engine lean, too cold a one rich. A flame on a bottle weakens it where nobody sees it, and it bursts.',
  inspect: 'A gauge on the bottle that is read before each run.',
  remedy: 'A heater made for the bottle that cuts off by pressure. Never a torch, never a closed car in the sun.',
  source: 'common practice, from memory: 800 to 1,050 psi; the instructions of the maker hold',
  cautions: ['nitrous'],
  check: ({ stage: { nitrous }, show, compare }) => {
    if (!nitrous) return undefined;
    const drafts: Draft[] = [];
    const pressure = nitrous['bottle-pressure'];
    const [over, under] = [pressure && above(pressure, MOST), pressure && below(pressure, LEAST)];
    const miss = over ?? under;
    if (pressure && miss)
      drafts.push({
        at: 'stages.nitrous.bottle-pressure',
        message: `At ${show(pressure)} the bottle makes the engine ${over ? `lean: over ${compare(pressure, MOST).limit}` : `rich: under ${compare(pressure, LEAST).limit}`} the jets do not fit.`,
        ...miss,
        repairs: [{ title: `Hold the bottle at ${USUAL}`, set: { 'stages.nitrous.bottle-pressure': USUAL } }],
      });
    if (nitrous['bottle-heating'] === 'flame')
      drafts.push({
        at: 'stages.nitrous.bottle-heating',
        message: 'A flame on a bottle makes it burst: take a heater made for it.',
        repairs: [
          { title: 'Take a heater that cuts off by pressure', set: { 'stages.nitrous.bottle-heating': 'regulated' } },
        ],
      });
    return drafts;
  },
};
