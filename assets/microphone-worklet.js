// Hands on what the microphone hears: 16 bits a sample, 40 ms at a time.
class Samples extends AudioWorkletProcessor {
  #samples = new Int16Array(sampleRate / 25);
  #at = 0;

  process([[heard]]) {
    for (const sample of heard ?? []) {
      this.#samples[this.#at++] = Math.max(-1, Math.min(1, sample)) * 32767;
      if (this.#at === this.#samples.length) {
        this.port.postMessage(this.#samples.slice().buffer);
        this.#at = 0;
      }
    }
    return true;
  }
}
registerProcessor('samples', Samples);
