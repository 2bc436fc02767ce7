import { useShop } from '#live/shop.ts';
import { Cautions } from '#screens/Cautions.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { useSettings } from '#screens/use-settings.ts';
import { CopySheet } from '#screens/workshop/CopySheet.tsx';
import { DemoSheet } from '#screens/workshop/DemoSheet.tsx';
import { PeopleSheet } from '#screens/workshop/PeopleSheet.tsx';
import { SafeSheet } from '#screens/workshop/SafeSheet.tsx';
import { SetAside } from '#screens/workshop/SetAside.tsx';
import { ShopSheet } from '#screens/workshop/ShopSheet.tsx';
import { StartSettings } from '#screens/workshop/StartSettings.tsx';
import { TableSheet } from '#screens/workshop/TableSheet.tsx';
import { TakenOff } from '#screens/workshop/TakenOff.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './WorkshopScreen.module.css';

/** How this shop likes things, what it holds, and the cautions. */
export function WorkshopScreen() {
  const { version, leaveDemo } = useShop();
  const { settings, change, trouble } = useSettings();
  if (!settings) return null;
  return (
    <DeskPage
      title="Workshop"
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'pour' })} icon="back" word="Pour" />}
    >
      <Refusal says={trouble} />
      <div class={styles.sheets}>
        <div class={styles.stack}>
          <SafeSheet />
          <CopySheet />
          <SetAside />
          <Cautions />
        </div>
        <div class={styles.stack}>
          <TableSheet settings={settings} onChange={change} />
          <StartSettings settings={settings} onChange={change} />
          <PeopleSheet settings={settings} onChange={change} />
          <ShopSheet settings={settings} onChange={change} />
          <TakenOff />
          {!leaveDemo && <DemoSheet />}
        </div>
      </div>
      <p class={styles.version}>Warmshot {version}</p>
    </DeskPage>
  );
}
