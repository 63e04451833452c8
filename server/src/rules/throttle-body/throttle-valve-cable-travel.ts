import { throttleValveTravel } from '../../analysis/transmission.ts';
import type { StageRule } from '../../checking/rule.ts';

/** How far the travel may be off what the transmission wants, as a share of it. Common practice, from memory. */
const TOLERANCE = 0.08;

export const rule: StageRule = {
  id: 'throttle-body/throttle-valve-cable-travel',
  title: 'Cable of the transmission pulled too little or too far',
  severity: 'error',
  why: 'The cable sets the oil pressure that holds the clutches, not only the shift points. Pulled too little at full throttle, the clutches slip under full power and burn within a few miles; pulled too far, it ends before the throttle does and holds the plates, or tears.',
  inspect:
    'Engine off, pedal on the floor: the cable must stand at the end of its travel without being stretched. Then a pressure gauge on the transmission, by its book, before the first drive.',
  remedy:
    'Put the stud where it gives the travel the transmission wants: a bracket or lever made for this transmission on the throttle body, then set it at full throttle.',
  source: 'plane trigonometry; 8 % is common practice, from memory; the book of the transmission holds',
  cautions: ['running-engine'],
  check: ({ values: { transmission }, see, show, showValue, impossible }) => {
    if (transmission?.['load-signal'] !== 'throttle-valve-cable') return undefined;
    const [travel, wanted, radius] = [
      see(throttleValveTravel),
      transmission['cable-travel'],
      transmission['lever-radius'],
    ];
    const reason = radius && impossible(throttleValveTravel);
    if (reason) return { at: 'transmission.lever-angle', message: reason };
    if (!travel || !wanted || !radius) return undefined;
    const off = travel.value / wanted.value - 1;
    if (Math.abs(off) <= TOLERANCE) return undefined;
    const need = showValue((radius.value * wanted.value) / travel.value, 'length');
    return {
      at: 'transmission.lever-radius',
      message: `This lever pulls the cable of the transmission ${show(travel)}, but ${show(wanted)} are wanted: ${off < 0 ? 'at full throttle the clutches get too little pressure and burn' : 'the cable ends before the throttle is open'}.`,
      excess: Math.abs(off),
      related: [{ at: 'transmission.cable-travel', message: 'What the transmission wants.' }],
      repairs: [
        {
          title: `Put the stud ${need} from the shaft`,
          set: { 'transmission.lever-radius': need },
          shows: throttleValveTravel,
        },
      ],
    };
  },
};
