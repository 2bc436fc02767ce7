import type { Material } from '#model/material.ts';
import { stockWords, type Units } from '#screens/amounts.ts';
import {
  isTicked,
  type Jar,
  kindWords,
  leftWords,
  reasonWords,
} from '#screens/shelf/shelf-view.ts';

/** What to buy under the words of its kinds, in the order of the shelf. */
export function buyGroups(jars: readonly Jar[]): [kind: string, Jar[]][] {
  const groups = new Map<string, Jar[]>();
  for (const jar of jars) {
    const word = kindWords[jar.material.kind][1];
    groups.set(word, [...(groups.get(word) ?? []), jar]);
  }
  return [...groups];
}

/** Why it is on the list, and how it is bought: `Low: 2 pours left. Comes as 5.0 gal.` */
export function whyWords(jar: Jar, units: Units): string {
  const reason = jar.reason ? reasonWords[jar.reason] : '';
  const left = jar.reason === 'out' && jar.stock.missing === 0 ? '' : `: ${leftWords(jar, units)}`;
  return `${reason}${left}.${packageWords(jar.material, units)}`;
}

/** The list as plain text, to paste anywhere. */
export function buyText(jars: readonly Jar[], units: Units): string {
  const groups = buyGroups(jars).map(([kind, group]) => {
    const lines = group.map((jar) => {
      const mark = isTicked(jar) ? '[x]' : '[ ]';
      return `${mark} ${jar.material.name}. ${whyWords(jar, units)}`;
    });
    return [kind, ...lines].join('\n');
  });
  return ['To buy', ...groups].join('\n\n');
}

function packageWords({ package: own, unit }: Material, units: Units): string {
  return own ? ` Comes as ${stockWords(own.qty, unit, units)}.` : '';
}
