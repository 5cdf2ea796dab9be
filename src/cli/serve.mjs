#!/usr/bin/env node
// Serves the built page on a loopback address and prints it. Static files only: nothing is stored, nothing is sent on.
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, resolve, sep } from 'node:path';
import { parseArgs } from 'node:util';

const here = new URL('../../dist/', import.meta.url);
const { values } = parseArgs({
  options: {
    dir: { type: 'string' },
    port: { type: 'string', default: '4173' },
    path: { type: 'string', default: '/' },
  },
});
const dir = values.dir ? resolve(values.dir) : decodeURIComponent(here.pathname);
const path = values.path.endsWith('/') ? values.path : `${values.path}/`;

const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.webmanifest': 'application/manifest+json',
};

const server = createServer((request, response) => {
  const asked = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
  const file = asked.startsWith(path) ? fileOf(asked.slice(path.length)) : null;
  if (!file) return void response.writeHead(404, { 'content-type': 'text/plain' }).end('not found');
  response.writeHead(200, {
    'content-type': types[extname(file)] ?? 'application/octet-stream',
    'x-content-type-options': 'nosniff',
  });
  createReadStream(file).pipe(response);
});

server.on('error', (error) => {
  const busy = 'code' in error && error.code === 'EADDRINUSE';
  console.error(
    busy ? `serve: port ${values.port} is taken; try --port ${Number(values.port) + 1}` : `serve: ${error.message}`,
  );
  process.exit(1);
});
server.listen(Number(values.port), '127.0.0.1', () => {
  console.log(`Offtrue is at http://127.0.0.1:${values.port}${path}   (Ctrl+C stops it)`);
});

/** The file that a path names within the folder; null when there is none or it leads out of it. */
function fileOf(name) {
  const full = normalize(join(dir, name === '' || name.endsWith('/') ? `${name}index.html` : name));
  if (!full.startsWith(dir.endsWith(sep) ? dir : dir + sep)) return null;
  return existsSync(full) && statSync(full).isFile() ? full : null;
}
