import { DidChangeConfigurationNotification } from 'vscode-languageserver';
import type { Session } from './session.ts';

/** What a user may set in the editor; what is not set is as in `usualSettings`. */
export type Settings = {
  /** Whether figures are shown beside the parts they belong to. */
  hints: boolean;
  /** Whether a line above the stages tells what each comes to. */
  stageVerdicts: boolean;
  /** Whether sheets that are not open are checked. */
  wholeFolder: boolean;
  /** The units where no house rules say them. */
  units: 'us' | 'si';
  /** Catalogs where no house rules name any, by paths or patterns from the opened folder. */
  catalogs: readonly string[];
};

export const usualSettings: Settings = {
  hints: false,
  stageVerdicts: false,
  wholeFolder: true,
  units: 'us',
  catalogs: [],
};

const SECTION = 'buildSheet';

/** Takes settings over from a client that is asked for them, or that tells them by itself. */
export async function followSettings(session: Session): Promise<void> {
  const { connection, client } = session;
  take(session, client.settings);
  connection.onDidChangeConfiguration(
    session.noticing('the change of settings', async ({ settings }) =>
      take(session, client.configures ? await asked(session) : settings?.[SECTION]),
    ),
  );
  if (client.registersConfiguration)
    await connection.client.register(DidChangeConfigurationNotification.type, { section: SECTION });
  if (client.configures) take(session, await asked(session));
}

function asked({ connection }: Session): Promise<unknown> {
  return connection.workspace.getConfiguration(SECTION);
}

/** Takes over what is known and of the right kind, and has done again what depends on it. */
function take(session: Session, found: unknown): void {
  const before = session.settings;
  const given = (typeof found === 'object' && found !== null ? found : {}) as { [Name in keyof Settings]?: unknown };
  const truth = (name: 'hints' | 'stageVerdicts' | 'wholeFolder') =>
    typeof given[name] === 'boolean' ? given[name] : usualSettings[name];
  const units = given.units === 'us' || given.units === 'si' ? given.units : usualSettings.units;
  const settings: Settings = {
    hints: truth('hints'),
    stageVerdicts: truth('stageVerdicts'),
    wholeFolder: truth('wholeFolder'),
    units,
    catalogs: patternsOf(given.catalogs),
  };
  session.settings = settings;
  if (settings.wholeFolder !== before.wholeFolder) session.folder.relist();
  if (settings.units !== before.units || settings.catalogs.join('\n') !== before.catalogs.join('\n')) {
    session.service.workspace.usual = { units, catalogs: [...settings.catalogs] };
    session.recheck();
  }
  if (settings.hints !== before.hints) session.refreshHints();
  if (settings.stageVerdicts !== before.stageVerdicts) session.refreshLenses();
}

/** One text or several; a folder stands for all catalogs in it. */
function patternsOf(given: unknown): string[] {
  const all = (Array.isArray(given) ? given : [given]).filter((one): one is string => typeof one === 'string');
  const named = all.map((one) => one.trim().replaceAll('\\', '/')).filter((one) => one !== '');
  return named.map((one) => (/\.ya?ml$|[*?{[]/.test(one) ? one : `${one.replace(/\/+$/, '')}/**/*.parts.{yaml,yml}`));
}
