import { createServer, type Server } from 'node:https';
import { extname } from 'node:path';
import { InputError } from '../../errors.js';
import type { AddonFiles } from '../shared/write-files.js';
import type { LocalCertificate } from './local-certificate.js';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.png': 'image/png',
  '.xml': 'text/xml; charset=utf-8',
};

/**
 * Serves the given files over https to this computer alone, and nothing else of it.
 *
 * @param files by name
 * @param port 0: any that is free
 * @returns the running server; it answers every request, whatever its address
 * @throws InputError when the port is taken, or may not be used
 */
export async function serveFiles(
  files: AddonFiles,
  { certificate, key }: Pick<LocalCertificate, 'certificate' | 'key'>,
  port: number,
): Promise<Server> {
  const server = createServer({ cert: certificate, key }, (request, response) => {
    // Excel on the web asks from its own address.
    response.setHeader('Access-Control-Allow-Origin', '*');
    response.setHeader('Cache-Control', 'no-store');
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.writeHead(405, { Allow: 'GET, HEAD' }).end();
      return;
    }
    const name = nameOf(request.url ?? '/');
    const content = files.get(name);
    if (content === undefined) {
      response.writeHead(404).end();
      return;
    }
    response.setHeader('Content-Type', TYPES[extname(name)] ?? 'application/octet-stream');
    response.end(request.method === 'HEAD' ? undefined : content);
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error) => reject(whyNotServed(error, port)));
    server.listen(port, '127.0.0.1', () => resolve());
  });
  return server;
}

/** The file that an address asks for; one that can't be read asks for none. */
function nameOf(address: string): string {
  try {
    // As two texts, `//` would name a host.
    return new URL(`https://localhost${address}`).pathname.slice(1);
  } catch {
    return '';
  }
}

function whyNotServed(error: NodeJS.ErrnoException, port: number): Error {
  if (error.code === 'EADDRINUSE') {
    return new InputError(
      `port ${port} of this computer is taken`,
      'Another program uses it, maybe this very server, started before: end that one, then start again.',
    );
  }
  if (error.code === 'EACCES') {
    return new InputError(`port ${port} of this computer may not be used`, 'Ask whoever looks after it.');
  }
  return error;
}
