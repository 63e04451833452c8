/** A catalog of so many parts over several kinds, eight lines each, none like another. */
export function longCatalog(parts) {
  const items = Array.from({ length: parts }, (_, index) => item(index));
  return `format: 1\nshop: Bench\nquoted: 2026-09-14\nparts:\n${items.join('')}`;
}

const kinds = ['pump', 'injectors', 'line', 'filter', 'regulator', 'coil', 'circuit', 'throttle-body'];

function item(index) {
  const kind = kinds[index % kinds.length];
  return `  - id: ${kind}-${index}
    name: part ${index}
    cost: ${(40 + ((index * 37) % 900) + 0.35).toFixed(2)}
    stock: ${index % 9}
    # counted by hand
    note: row ${index % 40}, shelf ${index % 7}
    ${kind}:
      ${fields(kind, index)}
`;
}

function fields(kind, index) {
  const step = index % 97;
  if (kind === 'pump')
    return `{ placement: in-tank, flow-at: [[40 psi, ${120 + step * 3} L/h], [75 psi, ${70 + step * 2} L/h]], rated-voltage: 13.5 V, current: ${5 + (step % 9)} A, relief-pressure: 104 psi }`;
  if (kind === 'injectors') return `{ static-flow: ${30 + step} lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms }`;
  if (kind === 'line') return `{ inside-diameter: ${6 + (step % 9)} mm, material: ptfe }`;
  if (kind === 'filter') return `{ rating: ${8 + step} um, loss: 2 psi, loss-at: 200 L/h }`;
  if (kind === 'regulator') return `{ pressure: ${40 + (step % 30)} psi, style: bypass }`;
  if (kind === 'coil') return `{ resistance: 0.${40 + (step % 50)} ohm, made-for: inductive }`;
  if (kind === 'circuit') return `{ wire: ${8 + 2 * (step % 4)} AWG, fuse: 20 A, relay: true }`;
  return `{ flange: square-bore, bores: { quantity: 4, diameter: ${40 + (step % 15)} mm }, power-rating: ${250 + step * 5} hp }`;
}
