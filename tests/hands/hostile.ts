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
