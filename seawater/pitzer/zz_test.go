package pitzer
import ("testing";"example.org/wellmixed/units")
func TestZZ(t *testing.T){
 for _,f:=range []string{"NaCl","KCl","MgCl2·6H2O","MgSO4·7H2O","CaCl2·2H2O","Na2SO4","NaHCO3","Na2CO3","KHCO3","SrCl2·6H2O","KBr","H3BO3","Na2B4O7·10H2O","K2SO4","SrSO4","CaCO3","Mg(OH)2"} {
  l,err:=Stock{Salts:[]Addition{{f,100*units.Gram}},Cold:units.Celsius(15),Warm:units.Celsius(30)}.Strongest()
  t.Log(l,err)
  l,err=Stock{Salts:[]Addition{{f,100*units.Gram}},Cold:units.Celsius(25),Warm:units.Celsius(25)}.Strongest()
  t.Log(l,err)
 }
 w,p,err:=Stock{Salts:[]Addition{{"CaCl2·2H2O",150*units.Gram},{"MgSO4·7H2O",120*units.Gram},{"NaHCO3",80*units.Gram}},Cold:units.Celsius(15),Warm:units.Celsius(30)}.Judge()
 t.Log(w,p,err)
 b:=Batch{Water:1*units.Kilogram,Temperature:units.Celsius(25),Add:[]Addition{{"NaCl",24.53*units.Gram},{"MgCl2·6H2O",11.1*units.Gram},{"Na2SO4",4.09*units.Gram},{"CaCl2·2H2O",1.54*units.Gram},{"KCl",0.695*units.Gram},{"NaHCO3",.201*units.Gram},{"KBr",.1*units.Gram},{"H3BO3",.027*units.Gram},{"SrCl2·6H2O",.04*units.Gram}}}
 for st,err:=range b.WaterOntoSalt(20*units.Gram,12) { t.Log(st.Water,st.Mixture.Solids,st.Mixture.NotJudged,err)}
 g,err:=b.WaterToClear(Gypsum); t.Log(g,err)
}
