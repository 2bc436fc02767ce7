// npm start: installs what is missing, builds, serves the app on this machine and prints the address.
import { goHome, installPackages, run } from './tools.mjs';

goHome();
installPackages();
if (run('npx', ['vite', 'build', '--logLevel', 'warn']) !== 0) process.exit(1);
const port = process.env.PORT ?? '4173';
const { serve } = await import('./serve.mjs');
const { url } = await serve({ port: Number(port), base: '/' });
console.log(`\nWarmshot runs at ${url}\nStop it with Ctrl+C.`);
