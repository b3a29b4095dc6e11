/** Names how clips are made. Another recipe gives other clips: raise it whenever engine, voice, shape or packing change. */
export const RECIPE = 'rms-2'
