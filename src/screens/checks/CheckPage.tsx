import type { ComponentChildren } from 'preact';
import { hrefTo } from '#screens/routes.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** The page of a check, with the way back at any time: every check can be left out and done again. */
export function CheckPage({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <DeskPage
      title={title}
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="back" word="Workshop" />}
    >
      {children}
    </DeskPage>
  );
}
