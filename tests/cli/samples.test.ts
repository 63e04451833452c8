import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { version } from '../../package.json';
import { formatNames } from '../../server/src/cli/formats/formats.ts';
import { program } from './program.ts';

const samples = readdirSync('samples').filter((name) => name.endsWith('.build.yaml'));

describe.each(formatNames)('every sample as %s', (format) => {
  it.each(samples)('%s', async (name) => {
    const { out, complaints } = await program(['check', '--format', format, `samples/${name}`]);
    expect(complaints).toBe('');
    await expect(out.replaceAll(version, '0.0.0')).toMatchFileSnapshot(`samples/${name.split('.')[0]}.${format}.txt`);
  });
});
