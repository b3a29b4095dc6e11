/** How sound is cut up for the ears: every file here counts in these. */

/** Samples a second, each within -1 to 1. */
export const SAMPLE_RATE = 16_000
/** One frame of bands every 10 ms. */
export const FRAME_SAMPLES = 160
export const FRAME_MS = 10
export const BANDS = 32
/** What the voice model looks at once: 32 ms. */
export const VOICE_SAMPLES = 512
/** The embedding model looks at 76 frames at a time and moves on by 8. */
export const WINDOW_FRAMES = 76
export const WINDOW_STEP = 8
export const EMBEDDING_SIZE = 96
