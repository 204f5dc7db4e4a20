/** What is used of fontkit, which comes without types. */
declare module "fontkit" {
  export interface Font {
    readonly unitsPerEm: number;
    readonly postscriptName: string;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string): {
      readonly advanceWidth: number;
      readonly glyphs: readonly { readonly path: { toSVG(): string } }[];
      readonly positions: readonly {
        readonly xAdvance: number;
        readonly xOffset: number;
        readonly yOffset: number;
      }[];
    };
  }
  export function create(bytes: Uint8Array): Font;
}
