import axe from 'axe-core';

/** What axe-core finds against WCAG 2.2 A and AA and good practice, as far as a machine can tell. */
export async function faults(root: HTMLElement): Promise<string[]> {
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const { violations } = await axe.run(root, {
    runOnly: tags,
    rules: { 'label-content-name-mismatch': { enabled: true } },
  });
  return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html}`));
}

/** True while nothing on the page is wider than the glass. */
export function isNoWider(): boolean {
  return document.documentElement.scrollWidth <= window.innerWidth;
}
