/**
 * Passwords that guessers try first; only such of 8 or more characters, as shorter ones are refused
 * for their length. Common practice, written from memory of published lists; no single source.
 */
export const COMMON_PASSWORDS: ReadonlySet<string> = new Set(`
12345678 123456789 1234567890 0123456789 0987654321 987654321 87654321 123123123 12341234 12344321
11111111 111111111 1111111111 00000000 0000000000 22222222 55555555 66666666 77777777 88888888 99999999
11223344 112233445566 12121212 123321123 123454321 147258369 159753456 789456123 741852963 98765432
password password1 password12 password123 password1234 passw0rd p@ssword p@ssw0rd p@ssword1 passwort motdepasse
qwertyui qwertyuiop qwerty12 qwerty123 qwerty1234 qwerty12345 qwertz123 qwertzui azertyui azertyuiop asdfghjk
asdfghjkl asdfasdf asdf1234 asdfqwer zxcvbnm1 zxcvbnm123 1q2w3e4r 1q2w3e4r5t 1qaz2wsx qazwsxedc zaq12wsx q1w2e3r4
qwe123qwe 1234qwer abcd1234 abcdefgh abcdefg1 abc12345 abc123456 a1234567 a12345678 aa123456 aaaaaaaa iloveyou
iloveyou1 iloveyou2 sunshine sunshine1 princess princess1 football football1 baseball baseball1 basketball
letmein1 letmein123 welcome1 welcome123 welcome2 changeme changeme1 changeme123 trustno1 admin123 admin1234
administrator rootroot toor1234 test1234 testtest guest123 user1234 default1 secret12 secret123 master12 master123
computer internet whatever michelle jennifer charlie1 superstar butterfly chocolate starlight
monkey12 monkey123 dragon12 dragon123 shadow12 shadow123 hunter12 freedom1 samantha victoria elizabeth summer123
summer2024 winter123 spring123 autumn123 january1 workshop workshop1 mechanic garage123 putback1 putback123 put-it-back
`.trim().split(/\s+/))
