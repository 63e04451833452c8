/** 0 degC in K. */
export const ZERO_CELSIUS = 273.15;

/** One atmosphere, and the pressure of the standard atmosphere at sea level, Pa. ISO 2533:1975. */
export const ATMOSPHERE = 101325;

/** Specific gas constant of dry air, J/(kg K). ISO 2533:1975. */
export const GAS_CONSTANT = 287.05287;

/** Standard acceleration of gravity, m/s2. 3rd CGPM (1901). */
export const GRAVITY = 9.80665;

/** One inch, m. International yard and pound agreement (1959). */
export const INCH = 0.0254;

/** One pound, kg. International yard and pound agreement (1959). */
export const POUND = 0.45359237;

/** One pound-force per square inch, Pa. */
export const PSI = (POUND * GRAVITY) / INCH ** 2;

/** One inch of mercury at 0 degC and standard gravity, Pa: 13595.1 kg/m3. ISO 80000-4. */
export const INCH_OF_MERCURY = 13595.1 * GRAVITY * INCH;

/** One mechanical horsepower, 550 ft lbf/s, W. */
export const HORSEPOWER = 550 * 0.3048 * POUND * GRAVITY;

/** One lb/(hp h), kg/J. */
export const POUND_PER_HORSEPOWER_HOUR = POUND / (HORSEPOWER * 3600);

/** One circular mil, the area of a round wire of 0.001 in, m2. */
export const CIRCULAR_MIL = (Math.PI / 4) * (INCH / 1000) ** 2;
