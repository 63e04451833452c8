/** Charging voltages, V, of 12-volt vehicles: 6-volt ones stay below, 24-volt ones above, and 16-volt racing batteries are within. */
const LOW = 9;
const HIGH = 19;

/** Whether a charging voltage, V, is that of a 12-volt vehicle, healthy or not. */
export function isTwelveVolt(voltage: number): boolean {
  return voltage >= LOW && voltage <= HIGH;
}
