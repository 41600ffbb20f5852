import { readFileSync } from "node:fs";
import { test } from "vitest";
import { loadJob } from "../../core/plan/load.ts";
import { makePlan } from "../../core/plan/make.ts";
import { toPlanFile } from "../../core/plan/write.ts";
import { checkPlan } from "../../core/check/check.ts";
import { en } from "../../words/en/index.ts";
import { sayer } from "../../words/say.ts";
import { drawLayer } from "./desk/draw.ts";
import { hashJson } from "../../core/job/hash.ts";
test("times", () => {
  for (const [name, job] of [["courtyard", JSON.parse(readFileSync("examples/courtyard.job.json","utf8"))], ["60m2", {format:"rowline/job@1",title:"x",site:{outline:[[0,0],[10000,0],[10000,6000],[0,6000]]},board:{lengths:[{length:1500,price:2140}],width:145,rise:25}, bond:{angle:0,kind:"half"}}]] as const) {
   const text=JSON.stringify(job); const best: Record<string,number> = {};
   for (let i=0;i<12;i++){ const t: [string,number][]=[]; const at=(n:string)=>t.push([n,performance.now()]);
    at("0"); const l=loadJob(text,"x"); if(!l.ok) throw new Error(JSON.stringify(l.problems)); at("load");
    const stages: [string, number][]=[]; const r=makePlan(l.value,(s)=>stages.push([s,performance.now()])); at("plan");
    const p=toPlanFile(r,sayer(en),""); at("file"); checkPlan({...l.value.read,survey:l.value.survey},p,true); at("check");
    hashJson(JSON.parse(JSON.stringify(p))); at("hash"); drawLayer(r,en,{name:"setout",scale:40,turnDeg:0}); at("draw"); const c=structuredClone(r); at("clone");
    t.slice(1).forEach(([n,v],k)=>{best[n]=Math.min(best[n]??1e9,v-t[k]![1])});
    stages.forEach(([n,v],k)=>{best["."+n]=Math.min(best["."+n]??1e9,(stages[k+1]?.[1]??t[2]![1])-v)});
   }
   console.log(name, Object.entries(best).map(([k,v])=>`${k} ${v.toFixed(1)}`).join("  "));
  }
});
