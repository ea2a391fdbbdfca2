import { afterEach, expect, it } from 'vitest';
import { boardInCode, codeReader } from './tag_code';

const ID = '1b4e28ba-2fa1-41d2-883f-0016d3cca427';
const world = globalThis as { BarcodeDetector?: unknown };
afterEach(() => delete world.BarcodeDetector);

it.each([
  [`https://shop.example/#/rack/${ID}`, ID],
  [`http://192.0.2.7:8000/#/rack/${ID.toUpperCase()}/`, ID],
  [`https://shop.example/#/commissions/${ID}`, null],
  ['https://shop.example/#/rack/new', null],
  ['W-14', null],
])('reads %s as %s', (text, expected) => {
  expect(boardInCode(text)).toBe(expected);
});

it('knows when this browser reads no codes', async () => {
  expect(await codeReader()).toBeNull();
  world.BarcodeDetector = class {
    static getSupportedFormats = async () => ['ean_13'];
  };
  expect(await codeReader()).toBeNull();
});
