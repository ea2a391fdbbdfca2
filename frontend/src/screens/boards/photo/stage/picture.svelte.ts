/** A picture on its way: opening, open, or not to be opened. */

export class Picture {
  image = $state.raw<HTMLImageElement | null>(null);
  failed = $state(false);
  private wanted = '';

  async open(url: string): Promise<void> {
    this.wanted = url;
    this.image = null;
    this.failed = false;
    const image = new Image();
    image.src = url;
    try {
      await image.decode();
      if (this.wanted === url) this.image = image;
    } catch {
      if (this.wanted === url) this.failed = true;
    }
  }
}
