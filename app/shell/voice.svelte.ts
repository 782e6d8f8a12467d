/** What the polite live region says. The same sentence twice is said twice. */
class Voice {
  sentence = $state('');
  #turn = false;

  say(sentence: string): void {
    this.#turn = !this.#turn;
    this.sentence = this.#turn ? sentence : `${sentence}\u00A0`;
  }
}

export const voice = new Voice();
