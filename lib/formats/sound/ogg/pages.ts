/** What passing bytes of an Ogg file say of its length. */
export interface OggPages {
  /** Looks at the next bytes of the file. */
  readonly look: (bytes: Uint8Array) => void;
  /** Samples at the end of the last page that states them; `undefined` before one did. */
  readonly samples: () => number | undefined;
  /** Whether the page marked as the last was seen. */
  readonly isEnded: () => boolean;
}

/** Bytes of a page's header that are looked at. */
const HEAD = 18;
const MARK = [0x4f, 0x67, 0x67, 0x53];
const LAST_PAGE = 4;

/** Reads the headers of Ogg pages in passing (RFC 3533, section 6): the position at their end, and whether they end the stream. */
export function oggPages(): OggPages {
  let kept: Uint8Array = new Uint8Array(0);
  let samples: number | undefined;
  let ended = false;
  const look = (bytes: Uint8Array): void => {
    // Page headers may lie across two pieces.
    const whole = new Uint8Array(kept.length + bytes.length);
    whole.set(kept);
    whole.set(bytes, kept.length);
    const view = new DataView(whole.buffer);
    let at = whole.indexOf(MARK[0]!);
    for (; at >= 0 && at + HEAD <= whole.length; at = whole.indexOf(MARK[0]!, at + 1)) {
      if (!MARK.every((value, i) => whole[at + i] === value)) continue;
      if ((whole[at + 5]! & LAST_PAGE) !== 0) ended = true;
      const position = view.getBigInt64(at + 6, true);
      // -1: no packet ends on this page.
      if (position > 0n) samples = Number(position);
    }
    kept = at < 0 ? new Uint8Array(0) : whole.slice(Math.max(at, whole.length - HEAD + 1));
  };
  return { look, samples: () => samples, isEnded: () => ended };
}
