import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { OutboxEntry } from './db';
import { requestFor } from './transport';

const entry = (over: object) =>
  ({ key: 'k-1', method: 'POST', kind: 'board', row_id: 'b-1', body: { id: 'b-1', tag: 'W-1' }, base: null, ...over }) as unknown as OutboxEntry;

beforeEach(() => void vi.stubGlobal('location', { origin: 'http://shop.test' }));

describe('the request for an entry', () => {
  it('makes a row under its own id, with a key against repeats and no revision', async () => {
    const request = requestFor(entry({}), null);
    expect([request.method, request.url]).toEqual(['POST', 'http://shop.test/api/boards/']);
    expect([request.headers.get('Idempotency-Key'), request.headers.get('If-Match')]).toEqual(['k-1', null]);
    expect(await request.json()).toEqual({ id: 'b-1', tag: 'W-1' });
  });

  it('changes a row on top of the revision it was based on', () => {
    const request = requestFor(entry({ method: 'PATCH', base: { revision: 4 }, body: { place: 'loft' } }), null);
    expect([request.method, request.url, request.headers.get('If-Match')]).toEqual(['PATCH', 'http://shop.test/api/boards/b-1/', '"4"']);
  });

  it('removes without a body', async () => {
    const request = requestFor(entry({ method: 'DELETE', base: { revision: 4 }, body: {} }), null);
    expect(await request.text()).toBe('');
  });

  it('sends a photograph as a form, lists as JSON', async () => {
    const body = { id: 's-1', board: 'b-1', face: 'A', corners: [[0, 1], [2, 3]] };
    const request = requestFor(entry({ kind: 'shot', body }), { blob: new Blob(['x'], { type: 'image/jpeg' }), name: 'face.jpg' });
    expect(request.headers.get('Content-Type')).toContain('multipart/form-data');
    const form = await request.formData();
    expect([form.get('board'), form.get('corners')]).toEqual(['b-1', '[[0,1],[2,3]]']);
    expect((form.get('photo') as File).name).toBe('face.jpg');
  });
});
