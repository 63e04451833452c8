import type { AirTerms } from './air.ts';
import type { DemandTerms } from './demand.ts';
import type { FuelTerms } from './fuel.ts';
import { fullLoadFigures, fullLoadFlow } from './full-load-injection.ts';
import { idleFigures } from './idle-injection.ts';
import { INJECTORS_HOME, injectorTerms } from './injector-terms.ts';
import type { Worksheet } from './worksheet.ts';

/** Pressure, flow, duty and idle pulse of the injectors. */
export function injectionFigures(w: Worksheet, air: AirTerms, demand: DemandTerms, fuel: FuelTerms): void {
  const injectors = injectorTerms(w, air);
  const flow = fullLoadFlow(w, injectors, air);
  const each = w.figure(
    {
      id: 'demand-per-injector',
      symbol: 'm_i',
      name: 'fuel demand per injector',
      dimension: 'mass-flow',
      formula: 'm_f / n',
      source: 'mass balance',
      home: INJECTORS_HOME,
    },
    [demand.injectors, injectors.quantity],
    (total, count) => total / count,
  );
  fullLoadFigures(w, injectors, flow, each);
  idleFigures(w, injectors, air, fuel, demand, flow);
}
