// SPDX-License-Identifier: GPL-3.0-or-later
#include <chrono>
#include <cstdio>
#include <string>
#include "materials/card_file/card.h"
#include "materials/conditions/material.h"
#include "mesh/meshing.h"
#include "mesh/worker/worker_child.h"
#include "solver/loads/loads.h"
#include "solver/static_solver.h"
#include <sys/resource.h>
using namespace crossgrain;
namespace {
double now(){return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();}
}
int main(int argc,char**argv){
  if (const auto status = run_as_mesh_worker(argc, argv)) return *status;
  ImportOptions import; import.step_file="/tmp/wt/engine/cases/examples/filter-housing/filter-housing.step"; import.bodies={"bowl"};
  MeshOptions mo; mo.time_limit=std::chrono::seconds(3000);
  std::string mode=argv[1];
  if(mode=="mesh"){ mo.refinement=std::stod(argv[2]); mo.write_msh=argv[3]; mo.deterministic=false;}
  else {mo.refinement=std::stod(argv[2]); mo.deterministic=false;}
  double t0=now();
  auto m=mesh_step(import,mo);
  std::printf("mesh %.2f s gmsh %.2f unknowns %ld tets %ld\n",now()-t0,m.report.seconds_gmsh,(long)m.mesh.unknowns(),(long)m.mesh.tetrahedron_count());
  if(mode=="mesh") return 0;
  SolverOptions so; if(argc>3) so.threads=std::stoi(argv[3]); if(argc>4) so.method=std::string(argv[4])=="direct"?SolverMethod::direct:SolverMethod::iterative;
  so.tolerance=1e-8; if(argc>5) so.tolerance=std::stod(argv[5]);
  auto card=find_card("pa_cf","/");
  auto mat=material_at(card,{});
  std::vector<SolidMaterial> mats; for(auto&b:m.geometry.bodies){(void)b;mats.push_back(mat.nominal);}
  std::vector<FaceId> wet; std::vector<FaceId> foot; double lowest=1e9;
  for(auto&f:m.geometry.faces){ if(f.hollow && f.kind==SurfaceKind::cylinder && f.radius>20) wet.push_back(f.id); if(f.kind==SurfaceKind::plane) lowest=std::min(lowest,f.centroid.z());}
  for(auto&f:m.geometry.faces) if(f.kind==SurfaceKind::plane && f.centroid.z()<lowest+1e-6) foot.push_back(f.id);
  std::printf("wet %zu foot %zu\n",wet.size(),foot.size());
  auto load=pressure_load(m.mesh,wet,[](auto&){return 0.4;});
  auto field=[&](Eigen::Vector3d d){return uniform_field(m.mesh,mats,std::vector<Frame>(mats.size(),frame_along(d)));};
  auto f1=field({0,0,1}),f2=field({1,0,0.3});
  auto cons=constraints_of(m.mesh,{{"foot",foot,Hold::all}});
  t0=now();
  StaticSolver s(m.mesh,cons,so);
  double t1=now();
  s.set_material(f1);
  double t2=now();
  auto u=s.solve(load);
  double t3=now();
  auto&r=s.report();
  std::printf("first: total %.2f  layout %.2f set %.2f (assembly+layout %.2f factor %.2f) solve %.2f its %d res %.2e  %s  energy %.10g\n",t3-t0,t1-t0,t2-t1,r.seconds_assembly,r.seconds_factor,t3-t2,r.iterations,r.relative_residual,r.method.c_str(),0.5*load.dot(u.col(0)));
  for(auto* f:{&f2}){
  double t4=now(); s.set_material(*f); double t5=now(); u=s.solve(load,Unbalanced::refused,&u); double t6=now();
  std::printf("second: total %.2f set %.2f (%.2f %.2f) solve %.2f its %d res %.2e energy %.10g\n",t6-t4,t5-t4,r.seconds_assembly,r.seconds_factor,t6-t5,r.iterations,r.relative_residual,0.5*load.dot(u.col(0)));}
  Eigen::MatrixXd L(load.size(),4); for(int c=0;c<4;++c) L.col(c)=load*(c+1)+ Eigen::VectorXd::LinSpaced(load.size(),-1,1)*c;
  t0=now(); u=s.solve(L); std::printf("four: %.2f its %d\n",now()-t0,r.iterations);
  rusage ru; getrusage(RUSAGE_SELF,&ru); std::printf("peak %.2f GiB  cpu %.2f\n",ru.ru_maxrss/1048576.0,ru.ru_utime.tv_sec+ru.ru_utime.tv_usec*1e-6);
}
