import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type RequestListener, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize, sep } from 'node:path';

/** The strictest policy that the elements promise to work under, Trusted Types included. */
export const strictPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "connect-src 'self'",
  "require-trusted-types-for 'script'",
  'trusted-types lit-html',
].join('; ');

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.map': 'application/json; charset=utf-8',
};

export interface StaticServer {
  /** `http://127.0.0.1:PORT`, without a slash at the end. */
  readonly url: string;
  close(): Promise<void>;
}

/**
 * Serves the files of a folder on a free port, each with `headers`. `/` is `index.html`. What is below `/documents/` is
 * answered by `documents`, where there is one.
 */
export async function serveFolder(
  folder: string,
  headers: Readonly<Record<string, string>> = { 'content-security-policy': strictPolicy },
  documents?: RequestListener,
): Promise<StaticServer> {
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const asked = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    if (documents !== undefined && asked.startsWith('/documents/')) {
      documents(request, response);
      return;
    }
    const path = normalize(join(folder, asked.endsWith('/') ? `${asked}index.html` : asked));
    if (!path.startsWith(normalize(folder) + sep)) {
      response.writeHead(403).end();
      return;
    }
    try {
      const body = await readFile(path);
      response.writeHead(200, {
        'content-type': types[extname(path)] ?? 'application/octet-stream',
        'cache-control': 'no-store',
        ...headers,
      });
      response.end(body);
    } catch {
      response.writeHead(404).end();
    }
  };
  const server = createServer((request, response) => void answer(request, response));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}`,
    close: () =>
      new Promise((resolve, reject) => {
        server.closeAllConnections();
        server.close((error) => (error ? reject(error) : resolve()));
      }),
  };
}
