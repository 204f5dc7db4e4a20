/** The length of an Ogg file by its page headers, read as its bytes pass. */
export interface OggPages {
  /** Takes the next bytes of the file. */
  readonly look: (bytes: Uint8Array) => void;
  /** Samples up to the end of the last page that states a position; `undefined` before the first such page. */
  readonly samples: () => number | undefined;
  /** Whether the page marked as the last was seen. */
  readonly isEnded: () => boolean;
}

/** Bytes of a page header that are read. */
const HEAD = 18;
const MARK = [0x4f, 0x67, 0x67, 0x53];
const LAST_PAGE = 4;

/** Reads the headers of Ogg pages as bytes pass (RFC 3533, section 6): the position at their end, and whether they end the stream. */
export function oggPages(): OggPages {
  let kept: Uint8Array = new Uint8Array(0);
  let samples: number | undefined;
  let ended = false;
  const look = (bytes: Uint8Array): void => {
    // A page header may be split between two calls.
    const whole = new Uint8Array(kept.length + bytes.length);
    whole.set(kept);
    whole.set(bytes, kept.length);
    const view = new DataView(whole.buffer);
    let at = whole.indexOf(MARK[0]!);
    for (; at >= 0 && at + HEAD <= whole.length; at = whole.indexOf(MARK[0]!, at + 1)) {
      if (!MARK.every((value, i) => whole[at + i] === value)) continue;
      if ((whole[at + 5]! & LAST_PAGE) !== 0) ended = true;
      const position = view.getBigInt64(at + 6, true);
      // -1 means that no packet ends on this page.
      if (position > 0n) samples = Number(position);
    }
    kept = at < 0 ? new Uint8Array(0) : whole.slice(Math.max(at, whole.length - HEAD + 1));
  };
  return { look, samples: () => samples, isEnded: () => ended };
}
