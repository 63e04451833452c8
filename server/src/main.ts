import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from './server.ts';

const pages = join(__dirname, '..', 'schemas', 'reference', 'rules');

function readFile(uri: string): string | undefined {
  if (!uri.startsWith('file:')) return undefined;
  try {
    return readFileSync(fileURLToPath(uri), 'utf8');
  } catch {
    return undefined;
  }
}

function pageOf(code: string): string | undefined {
  const page = join(pages, `${code}.md`);
  return existsSync(page) ? pathToFileURL(page).href : undefined;
}

const connection = createConnection(ProposedFeatures.all);
serve(connection, { readFile, pageOf });
connection.listen();
