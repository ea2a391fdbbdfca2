/** What stands in the QR code of a tag, and whether this browser can read one. */

/** The part of the browser's own reader that is used here (Shape Detection API, W3C community draft). */
export interface CodeReader {
  detect(picture: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}
type ReaderClass = {
  new (options: { formats: string[] }): CodeReader;
  getSupportedFormats(): Promise<string[]>;
};

const BOARD = /#\/rack\/([0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})\/?$/i;

/** The board that a tag's code opens; null for any other code. */
export const boardInCode = (text: string): string | null => BOARD.exec(text.trim())?.[1]?.toLowerCase() ?? null;

/** Null where this browser reads no QR codes. */
export async function codeReader(): Promise<CodeReader | null> {
  const Reader = (globalThis as { BarcodeDetector?: ReaderClass }).BarcodeDetector;
  if (!Reader) return null;
  const formats = await Reader.getSupportedFormats().catch((): string[] => []);
  return formats.includes('qr_code') ? new Reader({ formats: ['qr_code'] }) : null;
}
