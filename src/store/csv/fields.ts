/** The tables that come in. */
export const inKinds = ['moulds', 'materials', 'sessions'] as const;
export type InKind = (typeof inKinds)[number];

/** A thing that a column may tell. */
export interface InField {
  key: string;
  /** What a person calls it. */
  word: string;
  isNeeded: boolean;
  /** How the head of its column may read, letters and digits alone. */
  heads: readonly string[];
}

const field = (key: string, word: string, heads: string, isNeeded = false): InField => ({
  key,
  word,
  isNeeded,
  heads: [plainHead(word), ...heads.split(' ').filter(Boolean)],
});

/** What each kind of table can tell; the first line of the file is matched with these. */
export const inFields: Record<InKind, readonly InField[]> = {
  moulds: [
    field('name', 'Name', 'mould mold form model', true),
    field('down', 'Cavities down', 'down rows'),
    field('across', 'Cavities across', 'across columns cols'),
    field('cavities', 'Cavities in all', 'cavities count cavitycount'),
    field('material', 'Made of', 'material madeof'),
    field('massG', 'Weighs, g', 'weight massg weightg mass'),
    field('partMl', 'One bait, mL', 'baitml partml bait volume volumeml'),
    field('sprueMl', 'Sprue, mL', 'sprue sprueml'),
    field('setTime', 'Set time', 'settime set cooling coolingtime opensafter'),
  ],
  materials: [
    field('name', 'Name', 'material product item', true),
    field('kind', 'Kind', 'kind type category'),
    field('unit', 'Unit', 'unit'),
    field('packageQty', 'In a package', 'packageqty size quantity qty package'),
    field('packagePrice', 'Price of a package', 'price packageprice cost paid'),
    field('reorderAt', 'Buy again at', 'reorder reorderat minimum buyat'),
  ],
  sessions: [
    field('date', 'Date', 'day', true),
    field('time', 'Time', 'start clock'),
    field('mould', 'Mould', 'mold form', true),
    field('colour', 'Colour', 'color colourway mix'),
    field('shots', 'Shots', 'count number shotcount'),
    field('results', 'Cavities, one by one', 'cavities results'),
    field('note', 'Note', 'notes remark comment'),
  ],
};

/** Which column of the file tells each field; -1: none does. */
export type Matching = Readonly<Record<string, number>>;

/** The matching that the heads suggest: equal words first, then heads that begin with one. */
export function suggestedMatching(kind: InKind, heads: readonly string[]): Matching {
  const plain = heads.map(plainHead);
  const taken = new Set<number>();
  const found = new Map<string, number>();
  const fits = [
    (head: string, wanted: string) => head === wanted,
    (head: string, wanted: string) => wanted.length > 2 && head.startsWith(wanted),
  ];
  for (const fit of fits) {
    for (const { key, heads: wanted } of inFields[kind]) {
      if (found.has(key)) continue;
      const column = wanted
        .map((one) => plain.findIndex((head, index) => !taken.has(index) && fit(head, one)))
        .find((index) => index !== -1);
      if (column === undefined) continue;
      taken.add(column);
      found.set(key, column);
    }
  }
  return Object.fromEntries(inFields[kind].map(({ key }) => [key, found.get(key) ?? -1]));
}

/** The fields that must have a column and have none. */
export function missingFields(kind: InKind, matching: Matching): InField[] {
  return inFields[kind].filter(({ key, isNeeded }) => isNeeded && (matching[key] ?? -1) < 0);
}

function plainHead(head: string): string {
  return head
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '');
}
