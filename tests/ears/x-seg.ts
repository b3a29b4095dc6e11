import { writeFileSync } from 'node:fs'
import { readModelFiles } from '../../vite.ear-models.ts'
import { onnxModels } from '../../src/devices/ears-embedded/models-onnx.ts'
import { melFrames } from '../../src/core/ears/mel-stream.ts'
import { readLabelled } from './labelled.ts'
import { kitchenNoise } from './kitchen-noise.ts'
import { mixedAt, speechPower } from './mix.ts'
import { seeded } from '../helpers/seeded.ts'
import { readAudio } from './read-audio.ts'
// dump: per condition, stream mel + prob + truth to binary for analysis in numpy
const m = await onnxModels(readModelFiles())
const set = process.argv[2]!, out = process.argv[3]!
const clips = await readLabelled(`/tmp/ears/sets/tuning/${set}/clips`)
const enrol = await readLabelled(`/tmp/ears/sets/tuning/${set}/enrol`)
const dlg = (await readAudio('/tmp/ears/dlg/tuning/all.wav')).subarray(0, 16000*600)
const chance = seeded(5)
function babble(sec:number){const n=sec*16000;const o=new Float32Array(n);for(let t=0;t<6;t++){const s=Math.floor(chance()*(dlg.length-n));for(let i=0;i<n;i++)o[i]!+=dlg[s+i]!};return o}
const conds:[string,number|null][]=[['quiet',null],['fan',10],['fan',5],['water',10],['water',5],['clatter',5],['babble',10],['babble',5]]
const norm=(x:Float32Array)=>{const g=0.05/Math.sqrt(speechPower(x));return x.map(v=>v*g)}
const speakers=[...new Set(clips.map(c=>c.speaker))]
const meta:any[]=[]
for(const [kind,snr] of conds)for(const sp of speakers){
  const mine=clips.filter(c=>c.speaker===sp)
  let len=16000*4;const at:number[]=[]
  for(const c of mine){at.push(len);len+=c.samples.length+Math.round(16000*(1.0+0.8*chance()))}
  const x=new Float32Array(len)
  mine.forEach((c,i)=>x.set(norm(c.samples).map(v=>v*10**(-0.2+0.4*chance()*1)),at[i]))
  const lvl=0.05**2
  const noise=kind==='quiet'?null:kind==='babble'?babble(30):kitchenNoise(kind as any,30,speakers.indexOf(sp)+100)
  let y=x
  if(noise)y=mixedAt(x,lvl,noise,snr!)
  const room=seeded(3);y=y.map(v=>v+0.0002*(room()-0.5))
  const f=melFrames(y);const p:number[]=[];m.forgetVoice()
  for(let i=0;i+512<=y.length;i+=512)p.push(await m.voice(y.subarray(i,i+512)))
  const name=`${kind}${snr??''}-${sp}`
  writeFileSync(`${out}/${name}.mel`,Buffer.from(f.buffer));writeFileSync(`${out}/${name}.p`,Buffer.from(Float32Array.from(p).buffer))
  meta.push({name,kind,snr,sp,clips:mine.map((c,i)=>{ // truth: active span
    const s=c.samples;let a=0,b=s.length;const th=0.03*Math.max(...s.map(Math.abs));while(Math.abs(s[a]!)<th)a++;while(Math.abs(s[b-1]!)<th)b--
    return {label:c.label,start:(at[i]!+a)/160,end:(at[i]!+b)/160}})})
  console.log(name)
}
for(const c of enrol){writeFileSync(`${out}/enrol-${c.file}.mel`,Buffer.from(melFrames(norm(Float32Array.from([...new Float32Array(12800),...c.samples,...new Float32Array(12800)])).map(v=>v+0.0002*(chance()-0.5))).buffer))}
meta.push({enrol:enrol.map(c=>{const s=c.samples;let a=0,b=s.length;const th=0.03*Math.max(...s.map(Math.abs));while(Math.abs(s[a]!)<th)a++;while(Math.abs(s[b-1]!)<th)b--;return{file:c.file,label:c.label,sp:c.speaker,start:(12800+a)/160,end:(12800+b)/160}})})
writeFileSync(`${out}/meta.json`,JSON.stringify(meta))
