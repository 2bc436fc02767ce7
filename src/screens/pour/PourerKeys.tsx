import { Refusal } from '#screens/Refusal.tsx';
import { useSettings } from '#screens/use-settings.ts';
import { pourerOf, type SettingsFacts } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';

/** Who of two pours tonight, one press each; nothing where the phone is not shared. */
export function PourerKeys({ settings }: { settings: SettingsFacts }) {
  const { change, trouble } = useSettings();
  const pours = pourerOf(settings);
  if (pours === null) return null;
  return (
    <>
      <Acts label="Who pours">
        {(settings.people ?? []).map((name) => (
          <ActKey
            key={name}
            isPressed={name === pours}
            onPress={() => change(() => ({ pourer: name }))}
          >
            {name} pours
          </ActKey>
        ))}
      </Acts>
      <Refusal says={trouble} />
    </>
  );
}
