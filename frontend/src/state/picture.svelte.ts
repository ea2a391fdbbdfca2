import { untrack } from 'svelte';
import type { ShotRow } from '../api/rows';
import { db } from '../offline/db';
import { pictureOf, type PictureSize } from '../offline/pictures';

export interface ShownPicture {
  readonly url: string | null;
  /** Neither on the device nor to be had now. */
  readonly isMissing: boolean;
}

/** The address of a shot's picture while a component shows it. Call while a component starts. */
export function shownPicture(of: () => ShotRow | null | undefined, size: () => PictureSize): ShownPicture {
  let url = $state<string | null>(null);
  let isMissing = $state(false);
  // Rows come anew with every change of the table; the picture only when the row itself changed.
  const shot = $derived(of());
  const version = $derived(shot ? `${shot.id} ${shot.revision} ${shot.state} ${JSON.stringify(shot.corners)} ${size()}` : '');

  $effect(() => {
    const wanted = version;
    const row = untrack(() => shot);
    let made: string | null = null;
    let isOver = false;
    isMissing = false;
    if (!wanted || !row) {
      url = null;
      return;
    }
    void pictureOf(db, row, untrack(size)).then((blob) => {
      if (isOver) return;
      made = blob ? URL.createObjectURL(blob) : null;
      url = made;
      isMissing = !blob;
    });
    return () => {
      isOver = true;
      if (made) URL.revokeObjectURL(made);
    };
  });
  return {
    get url() {
      return url;
    },
    get isMissing() {
      return isMissing;
    },
  };
}
