import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { downloadAndUnzipVSCode } from '@vscode/test-electron';
import { installBrowserHost } from './browser-host/install.mjs';

const launcher = fileURLToPath(new URL('./browser-host/launcher.mjs', import.meta.url));

/** Path of a Chromium on this machine, or undefined. CHROMIUM overrides the usual places. */
export const findChromium = () =>
  [process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser'].find((path) => path && existsSync(path));

/** Whether the desktop build is asked for. */
export const wantsDesktop = () => Boolean(process.env.VSCODE_DESKTOP) || process.env.BUILD_SHEET_DESKTOP === '1';

async function desktop() {
  if (process.env.VSCODE_DESKTOP) return process.env.VSCODE_DESKTOP;
  if (!wantsDesktop()) return undefined;
  try {
    return await downloadAndUnzipVSCode({ timeout: 30_000 });
  } catch (error) {
    console.log(`VS Code: no desktop build (${error.message}); taking the browser-hosted one`);
    return undefined;
  }
}

/**
 * The VS Code to test with: `executable` for runTests, `env` for it, and whether it is the desktop build.
 * The desktop build is taken when VSCODE_DESKTOP names one, or downloaded when BUILD_SHEET_DESKTOP is 1; otherwise the
 * browser-hosted build is installed. Throws when neither can be had.
 */
export async function findVisualStudioCode() {
  const installed = await desktop();
  if (installed) return { executable: installed, env: {}, isDesktop: true };
  const chromium = findChromium();
  if (!chromium) throw new Error('no Chromium: install the Debian package chromium, or name one in CHROMIUM');
  const { main, node } = installBrowserHost();
  return {
    executable: launcher,
    env: { VSCODE_SERVER_MAIN: main, VSCODE_SERVER_NODE: node, CHROMIUM: chromium },
    isDesktop: false,
  };
}
