import { createReadStream, existsSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.txt': 'text/plain',
};

/** Serves the files of a folder and nothing else; its address and how to stop it. */
export async function serve(folder) {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url, 'http://here');
    const path = join(folder, normalize(pathname === '/' ? '/index.html' : pathname));
    const type = TYPES[extname(path)];
    if (!type || !existsSync(path)) return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': type });
    createReadStream(path).pipe(response);
  });
  await new Promise((ok) => server.listen(0, '127.0.0.1', ok));
  return { address: `http://127.0.0.1:${server.address().port}/`, stop: () => server.close() };
}
