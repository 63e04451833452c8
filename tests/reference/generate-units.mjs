import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';

/**
 * Writes values/units.json: texts of quantities with their SI value as GNU units computes it.
 * Run: `node tests/reference/generate-units.mjs`, with Debian's `units` package.
 */
const pressure = {
  psi: 'psi',
  kPa: 'kPa',
  bar: 'bar',
  inHg: 'inHg',
  mmHg: 'mmHg',
  mbar: 'mbar',
  MPa: 'MPa',
  Pa: 'Pa',
  'kg/cm^2': 'kgf/cm^2',
  inH2O: 'inH2O',
};
const massFlow = {
  'lb/h': 'lb/hour',
  'g/s': 'g/s',
  'kg/h': 'kg/hour',
  'g/min': 'g/minute',
  'kg/s': 'kg/s',
  'lb/min': 'lb/minute',
  'kg/min': 'kg/minute',
};

/** Units by dimension: the SI unit the sheet computes in, and each unit as GNU units writes it. */
const dimensions = {
  length: {
    si: 'm',
    units: { in: 'inch', mm: 'mm', m: 'm', ft: 'foot', cm: 'cm', um: 'micron', yd: 'yard', km: 'km', mi: 'mile' },
  },
  volume: {
    si: 'm^3',
    units: { L: 'liter', 'in^3': 'in^3', 'cm^3': 'cm^3', 'm^3': 'm^3' },
  },
  capacity: { si: 'm^3', units: { L: 'liter', gal: 'usgallon', qt: 'usquart' } },
  pressure: { si: 'Pa', units: pressure },
  'absolute-pressure': { si: 'Pa', units: pressure },
  depression: { si: 'Pa', units: pressure },
  temperature: { si: 'K', units: { degC: 'tempC', degF: 'tempF', K: 'K' } },
  power: { si: 'W', units: { hp: 'hp', kW: 'kW', PS: 'metrichorsepower', W: 'W' } },
  'rotational-speed': { si: 'turn/s', units: { rpm: 'turn/minute', '1/s': 'turn/s' } },
  time: { si: 's', units: { ms: 'ms', us: 'microsecond', s: 's', min: 'minute', h: 'hour' } },
  'mass-flow': { si: 'kg/s', units: massFlow },
  'injector-flow': { si: 'kg/s', units: { ...massFlow, 'cc/min': '0.720 g/minute', 'cm^3/min': '0.720 g/minute' } },
  'volume-flow': {
    si: 'm^3/s',
    units: {
      'L/h': 'liter/hour',
      'gal/h': 'usgallon/hour',
      'L/min': 'liter/minute',
      'gal/min': 'usgallon/minute',
      'm^3/s': 'm^3/s',
    },
  },
  'air-flow': { si: 'm^3/s', units: { cfm: 'ft^3/minute', 'm^3/h': 'm^3/hour', 'm^3/s': 'm^3/s' } },
  area: { si: 'm^2', units: { 'in^2': 'in^2', 'cm^2': 'cm^2', 'm^2': 'm^2' } },
  'resistance-per-length': { si: 'ohm/m', units: { 'mohm/ft': 'milliohm/ft', 'mohm/m': 'milliohm/m' } },
  velocity: { si: 'm/s', units: { 'm/s': 'm/s', 'ft/s': 'ft/s' } },
  voltage: { si: 'V', units: { V: 'V', mV: 'mV', kV: 'kV' } },
  current: { si: 'A', units: { A: 'A', mA: 'mA' } },
  resistance: { si: 'ohm', units: { ohm: 'ohm', mohm: 'milliohm', kohm: 'kiloohm' } },
  inductance: { si: 'H', units: { mH: 'mH', H: 'H', uH: 'microhenry' } },
  angle: { si: 'degree', units: { deg: 'degree' } },
  'angle-per-pressure': {
    si: 'degree/Pa',
    units: { 'deg/psi': 'degree/psi', 'deg/bar': 'degree/bar', 'deg/kPa': 'degree/kPa' },
  },
  torque: { si: 'N m', units: { 'lbf ft': 'lbf ft', 'N m': 'N m' } },
  'air-density': { si: 'kg/m^3', units: { 'kg/m^3': 'kg/m^3', 'lb/ft^3': 'lb/ft^3' } },
  mass: { si: 'kg', units: { lb: 'lb', kg: 'kg', g: 'g', oz: 'oz' } },
  density: {
    si: 'kg/m^3',
    units: { 'kg/m^3': 'kg/m^3', 'kg/L': 'kg/liter', 'lb/gal': 'lb/usgallon', 'lb/ft^3': 'lb/ft^3' },
  },
  'specific-consumption': { si: 'kg/J', units: { 'lb/(hp*h)': 'lb/hp/hour', 'g/(kW*h)': 'g/kW/hour' } },
  'specific-energy': { si: 'J/kg', units: { 'MJ/kg': 'MJ/kg', 'Btu/lb': 'btu/lb', 'kJ/kg': 'kJ/kg' } },
  viscosity: { si: 'm^2/s', units: { 'mm^2/s': 'centistokes', 'm^2/s': 'm^2/s' } },
  heat: { si: 'W', units: { W: 'W' } },
  energy: { si: 'J', units: { mJ: 'mJ', J: 'J' } },
  'wire-size': { si: 'm^2', units: { 'mm^2': 'mm^2' } },
  ratio: { si: '1', units: { '%': 'percent' } },
};

const numbers = ['1', '0.375', '58', '1.25e3', '3/8', '1 3/4'];
const gauges = ['4/0', '3/0', '2/0', '1/0', ...Array.from({ length: 26 }, (_, index) => String(index + 1))];

const run = (from, to) => Number(execFileSync('units', ['-t', '-o', '%.15g', from, to], { encoding: 'utf8' }));
const decimal = (text) => {
  const [, whole = '0', over, under] = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(text) ?? [];
  return over ? Number(whole) + Number(over) / Number(under) : Number(text);
};
const expression = (number, unit) => (unit.startsWith('temp') ? `${unit}(${number})` : `${number} ${unit}`);

const rows = [];
for (const [dimension, { si, units }] of Object.entries(dimensions)) {
  for (const [name, unit] of Object.entries(units)) {
    for (const number of numbers) {
      const value = run(expression(decimal(number), unit), si);
      rows.push({ dimension, unit: name, text: `${number} ${name}`, value });
    }
  }
}
for (const gauge of gauges) {
  const number = gauge.includes('/') ? 1 - Number.parseInt(gauge, 10) : Number(gauge);
  const value = run(`0.25 pi awg(${number})^2`, 'm^2');
  rows.push({ dimension: 'wire-size', unit: 'AWG', text: `${gauge} AWG`, value });
}

const version = execFileSync('units', ['--version'], { encoding: 'utf8' }).split('\n')[0];
const lines = rows.map((row) => ` ${JSON.stringify(row)}`).join(',\n');
const head = `{\n"made with": ${JSON.stringify(version)},\n"rows": [\n`;
writeFileSync(new URL('values/units.json', import.meta.url), `${head}${lines}\n]\n}\n`);
