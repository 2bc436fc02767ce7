import { hrefTo } from '#screens/routes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** A page for what the logbook does not hold. */
export function NotHere({ what }: { what: string }) {
  return (
    <DeskPage title="Not here" shape="wall">
      <Sheet>
        <p>{what} is not in this logbook.</p>
        <ActKey href={hrefTo({ at: 'pour' })}>Back to Pour</ActKey>
      </Sheet>
    </DeskPage>
  );
}
