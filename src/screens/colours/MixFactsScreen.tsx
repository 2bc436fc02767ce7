import type { ColourwayId } from '#model/gear.ts';
import { MixForm } from '#screens/colours/MixForm.tsx';
import { useMixBook } from '#screens/colours/use-mix-book.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo } from '#screens/routes.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** Where the doses of a colour are written. */
export function MixFactsScreen({ colourwayId }: { colourwayId: ColourwayId }) {
  const of = useMixBook(colourwayId);
  if (!of) return null;
  const { colourway, versions, pours } = of;
  if (!colourway) {
    return <NotHere what="This colour" back={{ at: 'colours' }} word="Colours" />;
  }
  const [newest] = versions;
  const isPoured = newest !== undefined && pours.has(newest.id);
  return (
    <DeskPage
      title={`What goes into ${colourway.name}`}
      small={
        isPoured
          ? `${colourway.name} ${newest.version} was poured: this makes ${newest.version + 1}`
          : 'not poured yet: it is changed where it stands'
      }
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'colour', colourwayId })} icon="back" word="Colour" />}
    >
      <MixForm colourway={colourway} newest={newest ?? null} of={of} />
    </DeskPage>
  );
}
