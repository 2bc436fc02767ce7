import { LastIn } from '#screens/keep/LastIn.tsx';
import { TableIn } from '#screens/keep/TableIn.tsx';
import { TablesOut } from '#screens/keep/TablesOut.tsx';
import { hrefTo } from '#screens/routes.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** Tables for a spreadsheet and from one. */
export function TablesScreen() {
  return (
    <DeskPage
      title="Tables"
      small="For a spreadsheet, and from one"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="back" word="Workshop" />}
    >
      <TablesOut />
      <TableIn />
      <LastIn onUndone={() => {}} />
    </DeskPage>
  );
}
