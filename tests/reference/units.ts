/** Trade units in SI, so that checks can be written in the units of their source. GNU units 2.22. */
export const INCH = 0.0254;
export const CUBIC_INCH = INCH ** 3;
export const CUBIC_FOOT_PER_MINUTE = 0.3048 ** 3 / 60;
export const LITER_PER_HOUR = 1e-3 / 3600;
export const POUND_PER_HOUR = 0.45359237 / 3600;
export const HORSEPOWER = 745.69987158227;
export const POUND_PER_HORSEPOWER_HOUR = POUND_PER_HOUR / HORSEPOWER;
export const PSI = 6894.757293168;
export const INCH_OF_MERCURY = 3386.38864;
export const RPM = 1 / 60;
export const CELSIUS = 273.15;
