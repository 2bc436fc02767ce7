import { DemoBand } from '#app/DemoBand.tsx';
import { KeptNotice } from '#app/KeptNotice.tsx';
import { TableLeft } from '#app/TableLeft.tsx';
import { UpdateNotice } from '#app/UpdateNotice.tsx';
import { useShop } from '#live/shop.ts';
import type { Route } from '#screens/routes.ts';

interface Props {
  at: Route['at'];
  /** Told anew on every page. */
  address: string | undefined;
  isPouring: boolean;
  /** This window had the table. */
  wasAtTable: boolean;
}

/** What stands over a page of the desk. While a session runs that is one line at the most: its table was left. */
export function Notices({ at, address, isPouring, wasAtTable }: Props) {
  const { leaveDemo } = useShop();
  return (
    <div>
      {leaveDemo && <DemoBand leave={leaveDemo} isOnWall={at === 'moulds'} />}
      {isPouring ? (
        // The page of the session says so itself.
        wasAtTable && at !== 'session' && <TableLeft at={at} />
      ) : (
        <>
          <KeptNotice isQuiet={at === 'pour'} />
          <UpdateNotice key={address} />
        </>
      )}
    </div>
  );
}
