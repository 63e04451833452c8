import {
  fuseRatings,
  hoseBores,
  injectorFlows,
  pumpFlows,
  regulatorSettings,
  wireSizes,
} from '../engineering/series.ts';
import type { FieldPath } from '../sheet/path.ts';
import type { Dimension } from '../units/units.ts';

/** A number of a part that the build asks for, with the range that is looked through, both in the unit it is tried in. */
export type NumberAsked = {
  part: string;
  name: string;
  field: FieldPath;
  dimension: Dimension;
  unit: string;
  from: number;
  to: number;
  /** Sizes that are sold, in SI, by the units of the house. */
  sizes?: Readonly<Record<'us' | 'si', readonly number[]>>;
  /** The unit it is always shown in, whatever the house uses. */
  shown?: string;
  /** What says more of the part there is, and goes with it. */
  without?: FieldPath;
};

/** A choice of a part that the build asks for. */
export type ChoiceAsked = { part: string; name: string; field: FieldPath };

export type Asked = NumberAsked | ChoiceAsked;

const everywhere = (sizes: readonly number[]) => ({ us: sizes, si: sizes });
const bores = { us: [...hoseBores.inch], si: [...hoseBores.metric] };
const wires = { us: [...wireSizes.gauge], si: [...wireSizes.metric] };
const line = { dimension: 'length', unit: 'mm', from: 3, to: 20, sizes: bores } as const;

/** What is asked of the parts of a conversion, part by part in the order of the sheet. */
export const asked: readonly Asked[] = [
  {
    part: 'Throttle body',
    name: 'diameter of each bore',
    field: 'throttle-body.bores.diameter',
    dimension: 'length',
    unit: 'mm',
    from: 20,
    to: 100,
  },
  { part: 'Throttle body', name: 'flange', field: 'throttle-body.flange' },
  { part: 'Throttle body', name: 'fit for boost', field: 'throttle-body.boost-rated' },
  { part: 'Throttle body', name: 'fit for nitrous', field: 'throttle-body.nitrous-rated' },
  {
    part: 'Injectors',
    name: 'static flow of each, at its rated pressure',
    field: 'throttle-body.injectors.static-flow',
    dimension: 'injector-flow',
    unit: 'lb/h',
    from: 1,
    to: 500,
    sizes: everywhere(injectorFlows),
  },
  { part: 'Injectors', name: 'firing', field: 'throttle-body.injectors.firing' },
  { part: 'Vacuum reference', name: 'port', field: 'vacuum-reference.port' },
  {
    part: 'Sensors',
    name: 'range of the manifold-pressure sensor',
    field: 'sensors.manifold-pressure.range',
    dimension: 'absolute-pressure',
    unit: 'kPa',
    from: 90,
    to: 600,
  },
  { part: 'Sensors', name: 'place of the oxygen sensor', field: 'sensors.oxygen.placement' },
  { part: 'Sensors', name: 'place of the coolant sensor', field: 'sensors.coolant.placement' },
  { part: 'Ignition', name: 'trigger', field: 'ignition.trigger' },
  { part: 'Ignition', name: 'supply', field: 'ignition.supply' },
  { part: 'Ignition', name: 'who times the spark', field: 'ignition.timing' },
  { part: 'Ignition', name: 'coil driver', field: 'ignition.driver' },
  { part: 'Ignition', name: 'advance in the distributor', field: 'ignition.advance' },
  { part: 'Ignition', name: 'tach signal', field: 'ignition.tach-signal' },
  { part: 'Ignition', name: 'plug wires', field: 'ignition.plug-wires' },
  {
    part: 'Tank',
    name: 'capacity',
    field: 'fuel-system.tank.capacity',
    dimension: 'capacity',
    unit: 'L',
    from: 2,
    to: 300,
  },
  { part: 'Tank', name: 'return port', field: 'fuel-system.tank.return-port' },
  { part: 'Tank', name: 'vent', field: 'fuel-system.tank.vent' },
  { part: 'Tank', name: 'surge control', field: 'fuel-system.tank.surge-control' },
  {
    part: 'Fuel pump',
    name: 'delivery at its pressure and rated volts',
    field: 'fuel-system.pump.flow-at',
    dimension: 'volume-flow',
    unit: 'L/h',
    from: 20,
    to: 1500,
    sizes: everywhere(pumpFlows),
    without: 'fuel-system.pump.low-voltage',
  },
  { part: 'Fuel pump', name: 'place', field: 'fuel-system.pump.placement' },
  { part: 'Fuel pump', name: 'the engine-driven pump', field: 'fuel-system.mechanical-pump' },
  {
    part: 'Filters',
    name: 'fine filter',
    field: 'fuel-system.filter.rating',
    dimension: 'length',
    unit: 'um',
    from: 2,
    to: 200,
    shown: 'um',
  },
  {
    part: 'Filters',
    name: 'pre-filter',
    field: 'fuel-system.pre-filter.rating',
    dimension: 'length',
    unit: 'um',
    from: 5,
    to: 500,
    shown: 'um',
  },
  { part: 'Lines', name: 'bore of the feed', field: 'fuel-system.feed.inside-diameter', ...line },
  { part: 'Lines', name: 'material of the feed', field: 'fuel-system.feed.material' },
  { part: 'Lines', name: 'bore of the return', field: 'fuel-system.return.inside-diameter', ...line },
  { part: 'Lines', name: 'material of the return', field: 'fuel-system.return.material' },
  {
    part: 'Regulator',
    name: 'set pressure',
    field: 'fuel-system.regulator.pressure',
    dimension: 'pressure',
    unit: 'psi',
    from: 5,
    to: 120,
    sizes: everywhere(regulatorSettings),
  },
  { part: 'Regulator', name: 'reference', field: 'fuel-system.regulator.reference' },
  { part: 'Regulator', name: 'style', field: 'fuel-system.regulator.style' },
  {
    part: 'Pump circuit',
    name: 'wire',
    field: 'electrical.pump-circuit.wire',
    dimension: 'wire-size',
    unit: 'mm^2',
    from: 0.3,
    to: 50,
    sizes: wires,
  },
  {
    part: 'Pump circuit',
    name: 'fuse',
    field: 'electrical.pump-circuit.fuse',
    dimension: 'current',
    unit: 'A',
    from: 1,
    to: 100,
    sizes: everywhere(fuseRatings),
  },
  { part: 'Pump circuit', name: 'relay', field: 'electrical.pump-circuit.relay' },
  { part: 'Pump circuit', name: 'ground', field: 'electrical.pump-circuit.ground' },
  {
    part: 'Electrical',
    name: 'output of the alternator',
    field: 'electrical.charging-current',
    dimension: 'current',
    unit: 'A',
    from: 10,
    to: 350,
  },
  { part: 'Electrical', name: "feed of the computer's key wire", field: 'electrical.key-feed' },
  { part: 'Electrical', name: 'cut-off on impact', field: 'electrical.cutoff.impact' },
  { part: 'Electrical', name: 'cut-off when the engine stalls', field: 'electrical.cutoff.stall' },
];
