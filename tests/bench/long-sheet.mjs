// Sheets of any length for the benches: a whole build with three stages and a long list of dated notes.
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const BUILD = `format: 1
title: Long winter, 5.7 liter
site: { altitude: 900 m, hottest: 41 degC, hottest-fuel: 50 degC }
vehicle: { use: street, hood-clearance: 190 mm }
engine:
  cylinders: 8
  displacement: 5.7 L
  compression-ratio: 8.9
  idle: 750 rpm
  peak-power-speed: 5000 rpm
  redline: 5500 rpm
  idle-manifold-pressure: 42 kPa
  cam-duration: 218 deg
  intake: { manifold: dual-plane, flange: square-bore, pads: 1 }
fuel: { grade: gasoline, octane: 91, leaded: false, vapor-pressure: 9 psi }
stages:
@stages
throttle-body:
  quantity: 1
  flange: square-bore
  bores: { quantity: 4, diameter: 44 mm }
  height: 85 mm
  injectors: { quantity: 4, static-flow: @flow, rated-pressure: 43.5 psi, dead-time: 0.9 ms, shortest-pulse: 1.3 ms, firing: twice-per-cycle }
stack: { air-cleaner: 75 mm }
vacuum-reference: { port: manifold }
sensors:
  manifold-pressure: { range: 250 kPa }
  oxygen: { placement: collector, distance: 18 in, joints-upstream: sealed }
  coolant: { placement: wet }
ignition:
  trigger: magnetic-pickup
  polarity: verified
  supply: full-voltage
  timing: computer
  timing-output: true
  advance: locked
  rotor-phasing: checked
  driver: module
  tach-signal: pickup
  plug-wires: suppression
  coil: { resistance: 0.6 ohm, inductance: 4 mH, working-current: 5.5 A, made-for: inductive }
fuel-system:
  tank: { capacity: 62 L, return-port: true, return-entry: below-fuel, vent: true, surge-control: baffle }
  pump: { placement: in-tank, flow-at: [[40 psi, 330 L/h], [60 psi, 290 L/h], [75 psi, 240 L/h]], rated-voltage: 13.5 V, current: 12 A, relief-pressure: 95 psi }
  mechanical-pump: removed
  pre-filter: { rating: 100 um }
  feed: { inside-diameter: 8 mm, length: @length, elbows-90: 3, material: rubber-injection }
  filter: { rating: 10 um, loss: 2 psi, loss-at: 200 L/h }
  return: { inside-diameter: 8 mm, length: 5 m, material: rubber-injection }
  feed-rise: 0.5 m
  regulator: { pressure: @pressure, reference: atmosphere, style: bypass }
electrical:
  charging-voltage: @voltage
  charging-current: 78 A
  battery: { placement: engine-bay }
  pump-circuit: { wire: 10 AWG, length: 5 m, fuse: 15 A, relay: true, ground: wire-to-battery }
  key-feed: run-and-start
  cutoff: { impact: true, stall: true }
handover: { road-use-notice: true, fuel-work: licensed, electrical-work: licensed, pressure-test: true, extinguisher: true }
notes:
`;

const STAGES = `  - { name: first summer, power: @power, induction: natural }
  - { name: camshaft, power: 320 hp, induction: natural }
  - name: blower
    power: 410 hp
    induction: roots
    boost: 6 psi
    changes:
      throttle-body: { injectors: { static-flow: 110 lb/h } }
      ignition: { retard-per-boost: 1 deg/psi }`;

/** Stages that each ask for a little more, the later half with a blower, and each with a change. */
function steps(count) {
  return Array.from({ length: count }, (_, step) => {
    const boost = (4 + 0.25 * (step - count / 2)).toFixed(2);
    const induction = step < count / 2 ? 'natural' : `roots, boost: ${boost} psi`;
    const changes = `{ fuel-system: { feed: { elbows-45: ${step} } } }`;
    return `  - { name: step ${step + 1}, power: ${270 + 9 * step} +/- 15 hp, induction: ${induction}, changes: ${changes} }`;
  }).join('\n');
}

const exact = { power: '270 hp', flow: '85 lb/h', length: '5.5 m', pressure: '58 psi', voltage: '13.8 V' };
const loose = {
  power: '270 +/- 15 hp',
  flow: '85 lb/h +/- 3 %',
  length: '5.5 +/- 0.3 m',
  pressure: '58 +/- 1 psi',
  voltage: '13.5..14.2 V',
};

const NOTES = [
  'leak test at 60 psi for ten minutes: dry',
  'idle hunts between 700 and 850 rpm when cold; better once the coolant is at 70 degC',
  'swapped the return hose, the old one had gone hard at the clamp',
  'fuel pressure 57.5 psi at idle, 58 psi under load',
  'voltage at the pump 13.1 V with the headlamps on',
  'no codes; plugs light brown on all eight',
];

/** A sheet of that many lines; with tolerances on five of its quantities, and with so many stages, if asked for. */
export function longSheet(lines, { tolerances = false, stages } = {}) {
  const values = tolerances ? loose : exact;
  const planned = BUILD.replace('@stages', stages ? steps(stages) : STAGES);
  const build = planned.replace(/@([a-z]+)/g, (_, name) => values[name]);
  const notes = [];
  for (let line = build.split('\n').length - 1; line < lines; line++) {
    const day = new Date(Date.UTC(2031, 0, 1 + notes.length)).toISOString().slice(0, 10);
    notes.push(`  - { date: ${day}, note: "${NOTES[notes.length % NOTES.length]}" }`);
  }
  return `${build}${notes.join('\n')}\n`;
}

/** Writes long sheets into a temporary folder; their paths. */
export function writeLongSheets(lengths) {
  const folder = mkdtempSync(join(tmpdir(), 'long-sheets-'));
  return lengths.map((lines) => {
    const path = join(folder, `${lines}-lines.build.yaml`);
    writeFileSync(path, longSheet(lines));
    return path;
  });
}
