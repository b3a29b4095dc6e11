/** Synthetic voices of Debian's packages espeak-ng, flite, festival with festvox-kdlpc16k; sox changes pitch and pace. */
import { execFileSync } from 'node:child_process'
import { rmSync, writeFileSync } from 'node:fs'

export interface Voice {
  readonly name: string
  readonly language: 'en' | 'es'
  /** Writes mono WAV at 16 kHz. `pace` above 1 is slower; `pitch` is in hundredths of a semitone. */
  say(text: string, file: string, how: { readonly pace: number; readonly pitch: number }): void
}

function finish(raw: string, file: string, pitch: number): void {
  execFileSync('sox', ['-q', '-D', raw, '-b', '16', file, 'pitch', String(pitch), 'rate', '16000', 'remix', '1'])
  rmSync(raw)
}

function espeak(voice: string, language: 'en' | 'es' = 'en'): Voice {
  return {
    name: `espeak-${voice}`,
    language,
    say(text, file, { pace, pitch }) {
      const raw = `${file}.raw.wav`
      execFileSync('espeak-ng', ['-v', voice, '-s', String(Math.round(150 / pace)), '-w', raw, text])
      finish(raw, file, pitch)
    }
  }
}

function flite(voice: string): Voice {
  return {
    name: `flite-${voice}`,
    language: 'en',
    say(text, file, { pace, pitch }) {
      const raw = `${file}.raw.wav`
      execFileSync('flite', ['-voice', voice, '--setf', `duration_stretch=${pace}`, '-t', text, '-o', raw])
      finish(raw, file, pitch)
    }
  }
}

function festival(voice: string): Voice {
  return {
    name: `festival-${voice}`,
    language: 'en',
    say(text, file, { pace, pitch }) {
      const raw = `${file}.raw.wav`
      const words = `${file}.txt`
      writeFileSync(words, text)
      const setUp = `(begin (voice_${voice}) (Parameter.set 'Duration_Stretch ${pace}))`
      execFileSync('text2wave', ['-o', raw, '-eval', setUp, words])
      rmSync(words)
      finish(raw, file, pitch)
    }
  }
}

/** No voice is in two of these groups. */
export const VOICES = {
  background: [espeak('en-us+m1'), espeak('en-gb+f1'), espeak('en-us+f3'), espeak('en-gb+m5'), flite('kal')],
  tuning: [
    flite('kal16'),
    flite('awb'),
    festival('ked_diphone'),
    espeak('en-us+m3'),
    espeak('en-gb+f2'),
    espeak('en-us+m6')
  ],
  /** Only among the starting phrases, with those above: the one more that was cut from a person's recordings. */
  starting: [flite('slt')],
  final: [
    flite('rms'),
    espeak('en-us-nyc+Michael'),
    espeak('en-029+Linda'),
    espeak('en-gb-x-gbcwmd+Gene'),
    espeak('en-gb-x-gbclan+klatt2')
  ],
  backgroundEs: [espeak('es+m1', 'es'), espeak('es-419+f1', 'es')],
  tuningEs: [espeak('es+m3', 'es'), espeak('es-419+f2', 'es'), espeak('es+m6', 'es')],
  startingEs: [
    espeak('es-419+Andy', 'es'),
    espeak('es+steph', 'es'),
    espeak('es-419+anika', 'es'),
    espeak('es+Mario', 'es')
  ],
  finalEs: [espeak('es+Michael', 'es'), espeak('es-419+Linda', 'es'), espeak('es+Gene', 'es')]
} as const
