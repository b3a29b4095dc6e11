import { panelWordsEn } from './panel-words.en.ts'

/** The texts of the panels, in the language of the page. */
export function usePanelWords(): typeof panelWordsEn {
  return panelWordsEn
}
