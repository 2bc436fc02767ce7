import { hrefTo, type Route } from '#screens/routes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  what: string;
  /** The way on, and its word. */
  back?: Route;
  word?: string;
}

/** A page for what the logbook does not hold. */
export function NotHere({ what, back = { at: 'pour' }, word = 'Pour' }: Props) {
  return (
    <DeskPage title="Not here" shape="wall">
      <Sheet>
        <p>{what} is not in this logbook.</p>
        <ActKey href={hrefTo(back)}>Back to {word}</ActKey>
      </Sheet>
    </DeskPage>
  );
}
