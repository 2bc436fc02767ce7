import type { Material, MaterialId } from '#model/material.ts';
import type { Instant } from '#model/schemas.ts';
import { type Book, pennedMeta } from '#store/book.ts';
import { newHead } from '#store/heads.ts';
import { announce } from '#store/notice.ts';
import { plainMaterial } from '#store/plain-material.ts';
import { whole } from '#store/whole.ts';

/** What can be given at the table before the shelf has it. */
export const namelessKinds = ['colourant', 'flake'] as const;
export type NamelessKind = (typeof namelessKinds)[number];

/** A bottle or jar that was used before anybody wrote it down; it is called by a number until then. */
export interface NamelessMaterial {
  id: MaterialId;
  kind: NamelessKind;
  name: string;
}

const words: Readonly<Record<NamelessKind, string>> = { colourant: 'Colourant', flake: 'Flake' };

/** `Colourant 2` where there is a `Colourant 1`. */
export function nextName(kind: NamelessKind, known: readonly Pick<Material, 'name'>[]): string {
  const numbers = known.map(({ name }) =>
    name.startsWith(`${words[kind]} `) ? Number(name.slice(words[kind].length + 1)) || 0 : 0,
  );
  return `${words[kind]} ${Math.max(0, ...numbers) + 1}`;
}

/** True while a material is called by its number. */
export function isNameless({ name }: Pick<Material, 'name'>): boolean {
  return namelessKinds.some((kind) => new RegExp(`^${words[kind]} \\d+$`).test(name));
}

/** Puts them on the shelf, their stock unknown. What is there already stays as it is. */
export async function keepNameless(
  book: Book,
  added: readonly NamelessMaterial[],
  at: Instant,
): Promise<void> {
  const known = new Set<string>(await book.db.getAllKeys('materials'));
  const fresh = added.filter(({ id }) => !known.has(id));
  if (fresh.length === 0) return;
  const heads = await Promise.all(
    fresh.map(({ id, kind, name }) =>
      newHead(book, 'materials', { facts: { ...plainMaterial(kind), name }, at, id }),
    ),
  );
  const tx = book.db.transaction(['materials', 'meta'], 'readwrite', { durability: 'strict' });
  await whole(tx, [
    ...heads.map((head) => () => tx.objectStore('materials').put(head)),
    () => tx.objectStore('meta').put(pennedMeta(book)),
  ]);
  announce('materials');
}
