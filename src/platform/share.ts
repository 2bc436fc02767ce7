/** Ways to hand a text to another app of the device. Neither needs a network. */
export interface Share {
  /** Whether the device has a way to share. */
  can(): boolean;
  /** Offers the text to other apps. False: the person changed their mind, or it did not work. */
  share(text: string): Promise<boolean>;
  /** Puts the text where it can be pasted from. False: the device did not let us. */
  copy(text: string): Promise<boolean>;
}

/** The device's own ways, where it has them. */
export const deviceShare: Share = {
  can: () => 'share' in navigator,
  share: (text) => done(() => navigator.share({ text })),
  copy: (text) => done(() => navigator.clipboard.writeText(text)),
};

async function done(act: () => Promise<void>): Promise<boolean> {
  try {
    await act();
    return true;
  } catch {
    return false;
  }
}
