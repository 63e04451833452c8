import { cableTravel } from '../engineering/cable.ts';
import { converterDrag } from '../engineering/converter.ts';
import { torque } from './demand.ts';
import { idleSpeed } from './engine.ts';
import { field, figure, given } from './node.ts';

/** How far the throttle shaft turns, degrees. */
export const throttleSwing = field('throttle-linkage.swing', 's_l', {
  value: 80,
  because: 'common practice: plates rest some 10 degrees short of closed across the bore',
});

const lever = {
  radius: field('transmission.lever-radius', 'r_l'),
  angle: field('transmission.lever-angle', 'a_l'),
  swing: throttleSwing,
};

const SOURCE = 'plane trigonometry; a cable long beside the radius';
const hasLever = given('transmission.lever-radius');

/** Travel of the transmission's cable from idle to full throttle, m. */
export const throttleValveTravel = figure({
  id: 'throttle-valve-travel',
  symbol: 'x_tv',
  name: 'travel of the transmission cable, idle to full throttle',
  dimension: 'length',
  formula: 'r_l (cos a_l - cos(a_l + s_l))',
  source: SOURCE,
  home: ['transmission.cable-travel', 'transmission.lever-radius', 'transmission.lever-angle'],
  when: hasLever,
  from: lever,
  compute: (values) => cableTravel(values),
});

/** Share of the cable's travel that is done at half throttle. */
export const throttleValveShareAtHalf = figure({
  id: 'throttle-valve-share-at-half',
  symbol: 'x_1/2',
  name: 'share of the cable travel at half throttle',
  dimension: 'ratio',
  formula: '(cos a_l - cos(a_l + s_l / 2)) / (cos a_l - cos(a_l + s_l))',
  source: SOURCE,
  home: ['transmission.lever-angle'],
  when: hasLever,
  from: { angle: lever.angle, swing: lever.swing },
  compute: ({ angle, swing }) => {
    const one = { radius: 1, angle, swing };
    return cableTravel(one, 0.5) / cableTravel(one);
  },
});

const stallSpeed = field('transmission.stall-speed', 'N_s');

/** Power the converter takes at idle in gear, W. */
export const converterIdleDrag = figure({
  id: 'converter-idle-drag',
  symbol: 'P_c',
  name: 'what the converter takes at idle in gear',
  dimension: 'power',
  formula: '2 pi N_i M (N_i / N_s)^2',
  source: 'similarity law of hydrodynamic converters; the torque at stall taken as that at peak power: common practice',
  home: ['transmission.stall-speed', 'engine.idle'],
  when: given('transmission.stall-speed'),
  from: { idleSpeed, torque, stallSpeed },
  compute: ({ idleSpeed, torque, stallSpeed }) => converterDrag(torque, idleSpeed, stallSpeed),
});
