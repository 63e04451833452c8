// A shop in which every text of the user would be markup, an address or a script, were it ever read as such, and how to see
// in a page that none was.

/** A text that would set `hacked`; its first word tells where it stands. */
const bad = {
  title: 'in-title <img src=x onerror=globalThis.hacked=1> ![](https://example.invalid/a.png)',
  stage: 'in-stage </th><script>globalThis.hacked=1</script>',
  later: 'in-later <svg onload=globalThis.hacked=1>[a](command:workbench.action.quit)',
  name: 'in-name </text></svg><iframe src=javascript:globalThis.hacked=1></iframe>',
  note: 'in-note </td></table><a href=javascript:globalThis.hacked=1>go</a> [go](javascript:globalThis.hacked=1)',
  reason: 'in-reason <img src=x onerror=globalThis.hacked=1>| `x` |',
  reading: 'in-reading <style onload=globalThis.hacked=1></style>',
  id: 'in-id <b onclick=globalThis.hacked=1>',
  part: 'in-part <object data=javascript:globalThis.hacked=1></object>',
  said: 'in-said <script>globalThis.hacked=1</script>[x](http://127.0.0.1:1/)',
  source: 'in-source <base href=http://127.0.0.1:1/>',
  shop: 'in-shop <form action=http://127.0.0.1:1/>',
  currency: 'in-currency <i onclick=globalThis.hacked=1>',
};

const quoted = Object.fromEntries(Object.entries(bad).map(([place, text]) => [place, JSON.stringify(text)]));

/** The files of the shop by name. */
export const hostileShop = {
  'build-sheet.config.yaml': `catalogs: ['*.parts.yaml']\ncurrency: ${quoted.currency}\n`,
  'hostile.parts.yaml': `format: 1
shop: ${quoted.shop}
quoted: 2026-09-14
parts:
  - id: pump-1
    name: ${quoted.part}
    note: ${quoted.said}
    source: ${quoted.source}
    cost: 120
    pump: { placement: in-tank, flow-at: [[40 psi, 270 L/h], [75 psi, 180 L/h]], rated-voltage: 13.5 V, current: 9 A }
`,
  'hostile.build.yaml': `format: 2
title: ${quoted.title}
engine: { cylinders: 8, displacement: 4.9 L, peak-power-speed: 5000 rpm, redline: 5400 rpm, idle: 750 rpm }
fuel: { grade: gasoline-e10 }
stages:
  - { name: ${quoted.stage}, power: 245 hp, induction: natural }
  - { name: ${quoted.later}, power: 600 hp, induction: natural }
throttle-body:
  name: ${quoted.name}
  injectors: { quantity: 4, static-flow: 80 lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms, shortest-pulse: 1.3 ms }
fuel-system:
  pump: { use: pump-1 }
  filter: { use: ${quoted.id} }
  feed: { inside-diameter: 8 mm, length: 5.5 m }
  regulator: { pressure: 43.5 psi, reference: atmosphere }
silence:
  - { rule: engine/power-condition-unknown, reason: ${quoted.reason} }
measured:
  - { date: 2026-06-14, stage: ${quoted.stage}, rail-pressure: 30 psi, note: ${quoted.reading} }
notes:
  - { date: 2026-06-14, note: ${quoted.note} }
`,
};

/** What of texts became something else in a page. Runs in the page. */
export function oddities() {
  const all = [...document.querySelectorAll('body *')];
  const kinds =
    'img, object, embed, base, style, form[action], b, i, script:not([src]), iframe:not([src="figures.html"])';
  return [
    ...('hacked' in globalThis ? ['a script ran'] : []),
    ...all.filter((one) => one.matches(kinds)).map(({ outerHTML }) => outerHTML.slice(0, 200)),
    ...all.flatMap((one) => {
      const ways = one.getAttributeNames().filter((name) => name.startsWith('on') || /href$/.test(name));
      return ways.map((name) => `${name}=${one.getAttribute(name)}`);
    }),
  ].filter((one) => !/^(href=licenses\.txt|(xlink:)?href=#)/.test(one));
}
