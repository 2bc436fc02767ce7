import { hrefTo } from '#screens/routes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  /** Presses of this window that wait for space. */
  unsaved: number;
  onTake: () => void;
}

/** In place of the table while another window has it: two would log one round twice. */
export function Elsewhere({ unsaved, onTake }: Props) {
  return (
    <DeskPage title="The table is open in another window." shape="wall">
      <Sheet>
        {unsaved > 0 && <p role="alert">Not saving. Free some space.</p>}
        <ActKey size="main" onPress={onTake}>
          Use it here
        </ActKey>
        <ActKey href={hrefTo({ at: 'moulds' })}>Leave it there</ActKey>
      </Sheet>
    </DeskPage>
  );
}
