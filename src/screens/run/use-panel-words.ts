import { useTexts } from '../texts.ts'
import { panelWordsEn, type PanelWords } from './panel-words.en.ts'

/** The texts of the panels, in the language of the page. */
export function usePanelWords(): PanelWords {
  return useTexts('panels', panelWordsEn)
}
