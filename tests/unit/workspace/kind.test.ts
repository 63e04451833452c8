import { describe, expect, it } from 'vitest';
import { kindOf } from '../../../server/src/workspace/kind.ts';

describe('what a text is', () => {
  it.each([
    ['file:///shop/wagon.build.yaml', 'yaml', 'sheet'],
    ['file:///shop/WAGON.BUILD.YML', 'yaml', 'sheet'],
    ['file:///shop/wagon.yaml', 'build-sheet', 'sheet'],
    ['untitled:Untitled-1', 'build-sheet', 'sheet'],
    ['untitled:Untitled-1', 'build-sheet-config', 'house'],
    ['git:/shop/wagon.build.yaml?%7B%22ref%22%3A%22~%22%7D', 'yaml', 'sheet'],
    ['git:/shop/build-sheet.config.yaml?ref=x/y', 'build-sheet', 'house'],
    ['file:///shop/build-sheet.config.yaml', 'build-sheet', 'house'],
    ['file:///shop/Build-Sheet.Config.YML', 'yaml', 'house'],
    ['file:///shop/wagon.yaml', 'yaml', undefined],
    ['file:///shop/wagon.build.yaml.bak', 'plaintext', undefined],
    ['untitled:Untitled-1', 'yaml', undefined],
  ])('%s of the language %s: %s', (uri, language, kind) => {
    expect(kindOf(uri, language)).toBe(kind);
  });
});
