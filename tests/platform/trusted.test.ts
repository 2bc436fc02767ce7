import { expect, test } from 'vitest';
import { trustedScript } from '#platform/trusted.ts';

test('the service worker of this app may be fetched', () => {
  expect(String(trustedScript('./sw.js'))).toBe('./sw.js');
});

test.each([
  'https://elsewhere.example/sw.js',
  '//elsewhere.example/sw.js',
  './sw.js?v=2',
  '../sw.js',
  'data:text/javascript,0',
  'javascript:0',
  '',
])('no other address becomes a script: %s', (url) => {
  expect(() => trustedScript(url)).toThrow(TypeError);
});

test('the address has the type that a strict page asks for', () => {
  // Trusted Types, W3C: under `require-trusted-types-for 'script'` a text is refused here.
  expect(window.trustedTypes?.isScriptURL(trustedScript('./sw.js'))).toBe(true);
});
