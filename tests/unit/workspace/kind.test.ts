import { describe, expect, it } from 'vitest';
import { kindOf } from '../../../server/src/workspace/kind.ts';

/**
 * An address as VS Code's git extension makes it for another state of a file (its `uri.ts`, `toGitUri`), encoded as the
 * client sends it; `.git` is added to the path of the text behind the change bars in the margin.
 */
function git(path: string, ref: string, file = path): string {
  return `git:${path.replace(':', '%3A')}?${encodeURIComponent(JSON.stringify({ path: file, ref }))}`;
}

describe('what a text is', () => {
  it.each([
    ['file:///shop/wagon.build.yaml', 'yaml', 'sheet'],
    ['file:///shop/WAGON.BUILD.YML', 'yaml', 'sheet'],
    ['file:///shop/wagon.yaml', 'build-sheet', 'sheet'],
    ['untitled:Untitled-1', 'build-sheet', 'sheet'],
    ['untitled:Untitled-1', 'build-sheet-config', 'house'],
    [git('/shop/wagon.build.yaml', '~'), 'yaml', 'sheet'],
    [decodeURIComponent(git('/shop/wagon.build.yaml', 'HEAD')), 'yaml', 'sheet'],
    [git('/c:/shop/wagon.build.yaml', 'main', 'c:\\shop\\wagon.build.yaml'), 'yaml', 'sheet'],
    [git('/shop/build-sheet.config.yaml', 'HEAD'), 'yaml', 'house'],
    [git('/shop/wagon.build.yaml.git', '', '/shop/wagon.build.yaml'), 'plaintext', undefined],
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
