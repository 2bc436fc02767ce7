/** What a field for a name must take and show letter by letter. */
export const oddNames = [
  '<img src=x onerror="document.title=1">',
  '"; DROP TABLE moulds; --',
  '🐟🎣 5″',
  'e\u0301p\u00e9e \u202eabc',
  '１２',
  'x'.repeat(60),
] as const;

/** What no field for a number may take, each after a short name for it. */
export const noNumbers = [
  'twelve',
  '12 g',
  'NaN',
  'Infinity',
  '1e308',
  '0x10',
  '1,234,5',
  '--5',
  '１２',
  '🐟',
  '<b>5</b>',
  '9'.repeat(400),
].map((text) => [text.slice(0, 12), text] as const);

/** A refusal is a sentence: it begins like one, ends like one and shows nothing of the machine. */
export const aSentence = /^[A-Z][^{}[\]<>_]{8,110}[.]$/;

/** Ways to run code from a text, as they are generally known (XSS, OWASP), each at most 60 letters. */
export const scriptStrings: readonly string[] = [
  ...['ran=1', 'self.ran=1', 'window["ran"]=1'].flatMap((code) => [
    `<script>${code}</script>`,
    `"><script>${code}</script>`,
    `<img src=x onerror=${code}>`,
    `'><img src=x onerror=${code}>`,
    `<svg onload=${code}>`,
    `<svg><script>${code}</script></svg>`,
    `<body onload=${code}>`,
    `<input autofocus onfocus=${code}>`,
    `<a href="javascript:${code}">x</a>`,
    `javascript:${code}`,
    `\${${code}}`,
    `{{${code}}}`,
    `');${code};//`,
    `</title><script>${code}</script>`,
  ]),
  '<iframe srcdoc="<script>top.ran=1</script>">',
  '<math><mi xlink:href="javascript:ran=1">x',
  '<details open ontoggle=ran=1>',
  '<video><source onerror=ran=1>',
  '<object data="javascript:ran=1">',
  '<embed src="javascript:ran=1">',
  '<base href="javascript:ran=1//">',
  '<style>@import "javascript:ran=1";</style>',
  '<link rel=stylesheet href="javascript:ran=1">',
  '<meta http-equiv=refresh content="0;url=javascript:ran=1">',
  '<template><script>ran=1</script></template>',
  '&lt;script&gt;ran=1&lt;/script&gt;',
  '&#60;script&#62;ran=1&#60;/script&#62;',
  '\\u003cscript\\u003eran=1\\u003c/script\\u003e',
  '%3Cscript%3Eran=1%3C/script%3E',
  '＜script＞ran=1＜/script＞',
  '{"__proto__":{"ran":1}}',
  '<!--<script>ran=1</script>-->',
];
