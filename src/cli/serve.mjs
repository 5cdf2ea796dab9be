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
    port: { type: 'string' },
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

// A port that was not asked for by number may give way to the next when it is taken.
const asked = values.port !== undefined;
let port = Number(values.port ?? 4173);
const last = asked ? port : port + 20;

server.on('error', (error) => {
  const busy = 'code' in error && error.code === 'EADDRINUSE';
  if (busy && port < last) return void server.listen(++port, '127.0.0.1');
  console.error(busy ? `serve: port ${port} is taken; try --port ${port + 1}` : `serve: ${error.message}`);
  process.exit(1);
});
server.on('listening', () => {
  console.log(`Offtrue is at http://127.0.0.1:${port}${path}   (Ctrl+C stops it)`);
});
server.listen(port, '127.0.0.1');

/** The file that a path names within the folder; null when there is none or it leads out of it. */
function fileOf(name) {
  const full = normalize(join(dir, name === '' || name.endsWith('/') ? `${name}index.html` : name));
  if (!full.startsWith(dir.endsWith(sep) ? dir : dir + sep)) return null;
  return existsSync(full) && statSync(full).isFile() ? full : null;
}
