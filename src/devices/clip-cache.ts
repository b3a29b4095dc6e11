/** Must not begin with "page ": those are the service worker's to delete. */
export const CLIP_CACHE = 'speech clips'
