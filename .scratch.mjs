import {readFileSync} from 'node:fs';
const M='/tmp/speed/dist/modules/';
const {readPlant}=await import(M+'plant/read-plant.js');const {loadSolver}=await import(M+'solver/choose.js');
const {planMonths}=await import(M+'analysis/monthly-plan.js');
const {openRanger,solvesOf}=await import(M+'analysis/ranging/ranger.js');const {rentsOf}=await import(M+'analysis/explain/rents.js');
const {planLimits}=await import(M+'analysis/limits/plan-limits.js');const {withoutCalendarBounds}=await import(M+'analysis/limits/without-calendar-bounds.js');
const {wouldTake}=await import(M+'analysis/explain/would-take.js');const {firmnessOf}=await import(M+'analysis/explain/firmness.js');
const {whyOfPlan}=await import(M+'host/why-of-plan.js');
const solver=await loadSolver();
const {plant}=readPlant(readFileSync(process.argv[2],'utf8'));
for(let r=0;r<3;r++){
let t=performance.now();const lap=(n)=>{const x=performance.now();console.log(n.padEnd(12),(x-t).toFixed(1));t=performance.now()};
const answer=planMonths(plant,solver,{});lap('plan');
const f=withoutCalendarBounds(answer.solved.formulation);
console.log(f.program.cost.length, f.program.rowLower.length);
const ranger=openRanger(f.program,solver,{scale:answer.plan.statement.scale});lap('open');
let s=solvesOf(ranger);const c=(n)=>{lap(n);const x=solvesOf(ranger);console.log('   solves',x-s,'warm',ranger.warm.solves);s=x};
rentsOf(f,ranger,planLimits(f));c('rents');wouldTake(f,ranger,answer.solved.primal);c('would');firmnessOf(f,ranger,answer.solved.primal);c('firm');ranger.close();
t=performance.now();whyOfPlan(plant,answer,solver);lap('why');}
