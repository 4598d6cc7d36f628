package teos10

// Gibbs function of ice Ih, IAPWS R10-06(2009) [R10]; Feistel and
// Wagner 2006 [FW06]. The polynomials in pressure are re-centred on sea
// pressure, so that π0 = p / 611.657 Pa with p above 101325 Pa [TEOS10,
// toolbox].
const (
	iceG00 = -6.32020233335886e5 // J/kg
	iceG01 = 6.55022213658955e-1
	iceG02 = -1.89369929326131e-8
	iceG03 = 3.3974612327105304e-15
	iceG04 = -5.564648690589909e-22
	iceS0  = -3.32733756492168e3 // J/(kg K)

	iceT1  = 3.68017112855051e-2 + 5.10878114959572e-2i
	iceT2  = 3.37315741065416e-1 + 3.35449415919309e-1i
	iceR1  = 4.47050716285388e1 + 6.56876847463481e1i // J/(kg K)
	iceR20 = -7.25974574329220e1 - 7.81008427112870e1i
	iceR21 = -5.57107698030123e-5 + 4.64578634580806e-5i
	iceR22 = 2.34801409215913e-11 - 2.85651142904972e-11i

	triplePointT = 273.16  // K
	triplePointP = 611.657 // Pa
)
