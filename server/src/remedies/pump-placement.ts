import type { Repair } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import type { FieldPath } from '../sheet/path.ts';

/** Fields that count only while the pump sits outside the tank. */
export const EXTERNAL_ONLY = [
  'fuel-system.pump.height-above-outlet',
  'fuel-system.pump.distance',
  'fuel-system.suction',
] as const satisfies readonly FieldPath[];

/** Those of the external pump's fields that a sheet gives. */
export function externalFields(values: Partial<BuildSheet>): FieldPath[] {
  const system = values['fuel-system'];
  const given = [system?.pump?.['height-above-outlet'], system?.pump?.distance, system?.suction];
  return EXTERNAL_ONLY.filter((_, index) => given[index] !== undefined);
}

/** The better places of an external pump, in the order of the trade: tank, module, surge tank. */
export function betterPlaces(values: Partial<BuildSheet>): [inTank: Repair, module: Repair, surgeTank: Repair] {
  const remove = externalFields(values);
  const place = 'fuel-system.pump.placement';
  return [
    { title: 'Mount the pump in the tank', set: { [place]: 'in-tank' }, remove },
    { title: 'Mount the pump in a tank module', set: { [place]: 'tank-module' }, remove },
    {
      title: 'Put the pump in a surge tank that a lift pump keeps full',
      set: { [place]: 'surge-tank', 'fuel-system.pump.fed-by': 'lift-pump' },
      remove,
    },
  ];
}
