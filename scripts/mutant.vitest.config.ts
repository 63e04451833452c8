import { readFileSync } from 'node:fs';
import { mergeConfig } from 'vitest/config';
import usual from '../vitest.config.ts';

const { MUTANT = '' } = process.env;
const { path, contents } = JSON.parse(readFileSync(MUTANT, 'utf8')) as Record<string, string>;

/** The usual tests with one file of the sources replaced. */
export default mergeConfig(usual, {
  root: '.',
  plugins: [{ name: 'mutant', enforce: 'pre', load: (id: string) => (id === path ? contents : undefined) }],
});
