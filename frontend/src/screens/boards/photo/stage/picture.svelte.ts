/** A picture on its way: opening, open, or not to be opened. */

export class Picture {
  image = $state.raw<HTMLImageElement | null>(null);
  failed = $state(false);
  private wanted = '';

  /** A finer picture takes the place of the one shown once it is there: a finger on it must not be cut off. */
  async open(url: string): Promise<void> {
    this.wanted = url;
    this.failed = false;
    const image = new Image();
    image.src = url;
    try {
      await image.decode();
      if (this.wanted === url) this.image = image;
    } catch {
      if (this.wanted === url) this.failed = this.image === null;
    }
  }
}
