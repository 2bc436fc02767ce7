// A static host without favours: real 404s, no special headers, the app in any folder.
import { createServer } from 'node:http';
import { pathToFileURL } from 'node:url';
import sirv from 'sirv';

/** Serves `folder` under `base`; resolves once it listens. */
export function serve({ port, base = '/shop/app/', folder = 'dist' }) {
  const files = sirv(folder, { dev: true, etag: true, extensions: ['html'] });
  const server = createServer((request, response) => {
    const path = request.url ?? '/';
    const missing = () => {
      response.statusCode = 404;
      response.end('Not here.');
    };
    if (!path.startsWith(base)) return missing();
    request.url = `/${path.slice(base.length)}`;
    files(request, response, missing);
  });
  return new Promise((resolve) => {
    server.listen(port, '127.0.0.1', () => {
      const { port: own } = server.address();
      resolve({ server, url: `http://localhost:${own}${base}` });
    });
  });
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const [, , port = '4174', folder] = process.argv;
  const { url } = await serve({ port: Number(port), folder });
  console.log(url);
}
