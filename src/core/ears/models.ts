/** What the ears need of a neural network, wherever it runs. */
export interface EarModels {
  /** Probability of a voice, 0 to 1, in the next 512 samples of the stream. */
  voice(samples: Float32Array): Promise<number>
  /** A new stream begins. */
  forgetVoice(): void
  /**
   * `frames` is log-mel, 32 values a frame, at least 76 frames. Gives 96 values for each window of 76 frames, one every
   * 8 frames, one after another.
   */
  embed(frames: Float32Array): Promise<Float32Array>
}
