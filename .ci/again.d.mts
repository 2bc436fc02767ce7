import type { Plugin } from 'vite';

export function againIfItFails(): Plugin;
