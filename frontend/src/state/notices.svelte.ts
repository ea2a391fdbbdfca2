export interface Notice {
  id: number;
  words: string;
  kind: 'told' | 'refused';
}

const SHOWN_MS = 3500;

/** Short sentences at the lower edge; a refusal stays until it is put away. */
class Notices {
  all = $state<Notice[]>([]);
  private last = 0;

  tell(words: string): void {
    const id = this.push(words, 'told');
    setTimeout(() => this.dismiss(id), SHOWN_MS);
  }

  refuse(words: string): void {
    if (!this.all.some((notice) => notice.words === words)) this.push(words, 'refused');
  }

  dismiss(id: number): void {
    this.all = this.all.filter((notice) => notice.id !== id);
  }

  private push(words: string, kind: Notice['kind']): number {
    this.last += 1;
    // Of what was told only the last counts; refusals wait for a hand.
    this.all = [...this.all.filter((notice) => notice.kind === 'refused').slice(-2), { id: this.last, words, kind }];
    return this.last;
  }
}

export const notices = new Notices();
