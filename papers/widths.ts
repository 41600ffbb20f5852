/**
 * Advance widths of the font of every paper (Atkinson Hyperlegible Next 5.3.0, figures of equal width), so that text is
 * measured, wrapped and shortened the same way everywhere without reading the font. In thousandths of the em:
 * code point, regular, bold, each in base 36. write/font/widths.test.ts holds the table against the font itself.
 */
export const CAP_HEIGHT = 668;
export const WIDTHS = [
  "w:7s:8o x:7y:8f y:8d:au z:i3:l9 10:gg:gy 11:pj:qx 12:kb:k5 13:4g:5u 14:8b:9b 15:8b:9b 16:dh:dh 17:gu:gj",
  "18:5u:7j 19:a2:ad 1a:5u:7k 1b:ar:c8 1c:hk:hk 1d:hk:hk 1e:hk:hk 1f:hk:hk 1g:hk:hk 1h:hk:hk 1i:hk:hk 1j:hk:hk",
  "1k:hk:hk 1l:hk:hk 1m:5u:7k 1n:5u:7k 1o:fd:ft 1p:hg:h0 1q:fd:ft 1r:dc:f7 1s:lm:lp 1t:he:iu 1u:h1:hv 1v:hx:ia",
  "1w:il:j4 1x:ft:gl 1y:fc:fq 1z:ja:jy 20:ja:jh 21:aw:bs 22:e8:fl 23:hj:if 24:f1:fc 25:mw:nu 26:j9:jx 27:ju:kq",
  "28:gg:hh 29:k4:l0 2a:h2:i2 2b:gg:gy 2c:fi:gv 2d:j6:j2 2e:gh:hw 2f:ns:om 2g:hb:j1 2h:fz:i2 2i:gv:h6 2j:8t:9g",
  "2k:ar:c8 2l:9k:9k 2m:fc:g6 2n:ac:b4 2o:6r:80 2p:el:fc 2q:fq:gk 2r:dh:e6 2s:fo:gk 2t:ey:fn 2u:8q:a5 2v:fi:gh",
  "2w:fa:fv 2x:70:8c 2y:6t:77 2z:do:ff 30:7a:8u 31:nh:oi 32:fa:fv 33:f8:g0 34:fq:gk 35:fy:gn 36:9p:ag 37:d3:e4",
  "38:92:ag 39:f0:fr 3a:ct:eq 3b:j0:kk 3c:dd:ez 3d:ch:eh 3e:cs:e1 3f:9k:al 3g:6l:72 3h:9k:al 3i:ff:ex 4g:7s:8o",
  "4h:7y:8f 4i:dh:e6 4j:gy:hm 4k:g4:gh 4l:fz:i2 4m:6l:72 4n:eo:ff 4o:a8:c0 4p:m6:m6 4q:ab:au 4r:fm:i1 4s:gq:h3",
  "4u:m6:m6 4v:9w:an 4w:9s:ay 4x:g3:gz 4y:am:b6 4z:an:bb 50:6r:80 52:e5:eh 53:6o:86 54:7d:89 55:74:7w 56:ak:b7",
  "57:fm:i1 58:mo:ni 59:ms:no 5a:o3:pl 5b:ci:em 5c:he:iu 5d:he:iu 5e:he:iu 5f:he:iu 5g:he:iu 5h:he:iu 5i:or:qu",
  "5j:hx:ia 5k:ft:gl 5l:ft:gl 5m:ft:gl 5n:ft:gl 5o:aw:bs 5p:aw:bs 5q:aw:bs 5r:aw:bs 5s:j5:jo 5t:j9:jx 5u:ju:kq",
  "5v:ju:kq 5w:ju:kq 5x:ju:kq 5y:ju:kq 5z:es:ew 60:ju:kq 61:j6:j2 62:j6:j2 63:j6:j2 64:j6:j2 65:fz:i2 66:gg:hh",
  "67:g6:h9 68:el:fc 69:el:fc 6a:el:fc 6b:el:fc 6c:el:fc 6d:el:fc 6e:o2:oe 6f:dh:e6 6g:ey:fn 6h:ey:fn 6i:ey:fn",
  "6j:ey:fn 6k:70:8c 6l:70:8c 6m:70:8c 6n:7e:8q 6o:fp:gc 6p:fa:fv 6q:f8:g0 6r:f8:g0 6s:f8:g0 6t:f8:g0 6u:f8:g0",
  "6v:gu:gj 6w:f8:g0 6x:f0:fr 6y:f0:fr 6z:f0:fr 70:f0:fr 71:ch:eh 72:fq:gk 73:ch:eh 74:he:iu 75:el:fc 76:he:iu",
  "77:el:fc 78:he:iu 79:el:fc 7a:hx:ia 7b:dh:e6 7e:hx:ia 7f:dh:e6 7g:hx:ia 7h:dh:e6 7i:il:j4 7j:hm:ja 7k:j5:jo",
  "7l:fo:gk 7m:ft:gl 7n:ey:fn 7q:ft:gl 7r:ey:fn 7s:ft:gl 7t:ey:fn 7u:ft:gl 7v:ey:fn 7y:ja:jy 7z:fi:gh 80:ja:jy",
  "81:fi:gh 82:ja:jy 83:fi:gh 86:ja:jh 87:fa:fv 8a:aw:bs 8b:70:8c 8e:aw:bs 8f:70:8c 8g:aw:bs 8h:70:8c 8i:p4:rd",
  "8j:dt:fj 8m:hj:if 8n:do:ff 8p:f1:fc 8q:7a:8u 8r:f1:fc 8s:7a:8u 8t:f1:fc 8u:8t:a5 8x:fv:g6 8y:88:9o 8z:j9:jx",
  "90:fa:fv 91:j9:jx 92:fa:fv 93:j9:jx 94:fa:fv 9c:ju:kq 9d:f8:g0 9e:ry:sg 9f:po:q0 9g:h2:i2 9h:9p:ag 9k:h2:i2",
  "9l:9p:ag 9m:gg:gy 9n:d3:e4 9q:gg:gy 9r:d3:e4 9s:gg:gy 9t:d3:e4 9u:fi:gv 9v:92:ag 9w:fi:gv 9x:92:ag a2:j6:j2",
  "a3:f0:fr a6:j6:j2 a7:f0:fr a8:j6:j2 a9:f0:fr aa:j6:j2 ab:f0:fr ac:ns:om ad:j0:kk ae:fz:i2 af:ch:eh ag:fz:i2",
  "ah:gv:h6 ai:cs:e1 aj:gv:h6 ak:cs:e1 al:gv:h6 am:cs:e1 b6:90:af ew:gg:gy ex:d3:e4 ey:fi:gv ez:92:ag fr:6t:77",
  "jq:b7:d0 jr:b7:d0 jt:9w:an ka:8a:9j kc:bd:ci kd:as:dd 60w:ns:om 60x:j0:kk 60y:ns:om 60z:j0:kk 610:ns:om",
  "611:j0:kk 61q:i8:iy 642:fz:i2 643:ch:eh 6bt:3w:4c 6c3:e0:dx 6c4:mw:n4 6c8:6k:7h 6c9:6k:7h 6ca:6k:7h",
  "6cc:b3:db 6cd:b3:db 6ce:b3:db 6cg:f1:g6 6ci:c6:c6 6cm:im:lo 6d5:9t:ay 6d6:9t:ay 6dg:ga:h5 6gc:ig:iu",
  "6gp:fe:ha 6j7:ci:dq 6jm:oa:q6 6qa:gu:gj 6qd:gm:ht",
];
