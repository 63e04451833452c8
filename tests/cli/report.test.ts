import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, program } from './program.ts';

const HOSTILE = `format: 1
title: '<script>alert(1)</script> <img src="https://example.com/x.png">'
engine: { cylinders: 8, displacement: 5 L }
fuel: { grade: gasoline }
stages:
  - { name: '"><svg onload=alert(1)>', power: 250 hp }
`;

describe('build-sheet report', { timeout: 120_000 }, () => {
  it.each(readdirSync('samples').filter((file) => file.endsWith('.build.yaml')))(
    'is one file that loads and runs nothing: %s',
    async (file) => {
      const { code, out } = await program(['report', resolve('samples', file)]);
      expect(code).toBe(0);
      expect(out).not.toMatch(/<script|<link|<img|<iframe|\ssrc=|@import|url\(|https?:(?!\/\/www\.w3\.org\/2000\/svg)/);
      expect(out).not.toMatch(/NaN|undefined|Infinity|\[object/);
      for (const heading of ['What is planned', 'What is found', 'What each part must be', 'Take care'])
        expect(out).toContain(`<h2>${heading}</h2>`);
    },
  );

  it('shows plots of a whole sheet', async () => {
    const { out } = await program(['report', 'samples/quarry-wagon.build.yaml']);
    expect(out).toContain('Injector duty cycle over engine speed at full load');
    expect(out).toContain('Pump delivery over pressure at the volts that reach it');
    expect(out.replaceAll('\u00a0', ' ')).toContain('at most 85 %');
  });

  it('says on every page of what to start tuning from that it is no finished tune', async () => {
    const { out } = await program(['report', 'samples/quarry-wagon.build.yaml']);
    const [, starting = ''] = /<section class="starting">(.*?)<\/section>/s.exec(out) ?? [];
    expect(starting).toContain('<h2>To start tuning from</h2>');
    expect(starting.match(/never a finished tune/g)?.length).toBeGreaterThanOrEqual(2);
    expect(out).toMatch(/@page starting \{ @bottom-left \{ content: "A starting point [^"]*never a finished tune";/);
    expect(out).toContain('.starting { page: starting; }');
    const markdown = (await program(['report', '-f', 'markdown', 'samples/quarry-wagon.build.yaml'])).out;
    expect(markdown.split('**To start tuning from**')[1]).toContain('never a finished tune');
  });

  it('shows the name of a part whole in its tables', async () => {
    const { out } = await program(['report', 'samples/ember-coupe.build.yaml']);
    expect(out).toContain('<td>two in-tank pumps, the second from 5 psi of boost, in the tank, 2 of them');
  });

  it('counts the injectors of all throttle bodies', async () => {
    const { out } = await program(['report', '-f', 'markdown', 'samples/kiln-pair.build.yaml']);
    expect(out).toContain('| Throttle body | paired four-bore set | 2 |');
    expect(out).toMatch(/\| Injectors \| 62 lb\/h, 3 bar \| 8 \|/);
  });

  it('lets no text of a sheet become markup', async () => {
    const { out } = await program(['report', '-'], { input: HOSTILE });
    expect(out).not.toMatch(/<script|<img|<svg onload/);
    expect(out).toContain('&lt;script&gt;');
  });

  it('writes Markdown, JSON and a file', async () => {
    const sheet = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
    const cwd = folderWith({ 'one.build.yaml': sheet });
    expect((await program(['report', '-f', 'markdown', 'one.build.yaml'], { cwd })).out).toContain(
      '**What is planned**',
    );
    const data = JSON.parse((await program(['report', '-f', 'json', 'one.build.yaml'], { cwd })).out);
    expect(data).toMatchObject({ version: 1, sections: expect.any(Array) });
    expect(await program(['report', 'one.build.yaml', '-o', 'one.html'], { cwd })).toMatchObject({ code: 0, out: '' });
    expect(readFileSync(join(cwd, 'one.html'), 'utf8')).toContain('<!doctype html>');
    expect(await program(['report', 'one.build.yaml', '-o', 'gone/one.html'], { cwd })).toMatchObject({ code: 2 });
  });
});
