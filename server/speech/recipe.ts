/** Names how clips are made. Another recipe gives other clips: raise it whenever engine, voice, shape or packing change. */
export const RECIPE = 'rms-2'
/** Of a program on this machine, whose voice may change with it: delete `speech-es` in the data folder then. */
export const SPANISH_RECIPE = 'host-es-1'
