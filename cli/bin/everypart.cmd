@echo off
rem Starts everypart from its jar and passes all arguments on. It builds nothing.
rem No block in brackets holds a path: one in "Program Files (x86)" would end it.
setlocal disabledelayedexpansion
set "JAR=%~dp0..\target\everypart.jar"
if not exist "%JAR%" goto nojar
set "JAVA=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "JAVA=%JAVA_HOME%\bin\java.exe"
if not "%JAVA%"=="java" goto start
where java >nul 2>nul
if errorlevel 1 goto nojava
:start
rem Half of the machine's memory, or what EVERYPART_MEMORY says (4g, 512m).
set "MEMORY=-XX:MaxRAMPercentage=50"
if defined EVERYPART_MEMORY set "MEMORY=-Xmx%EVERYPART_MEMORY%"
rem These two are over before thorough compiling or a collector with threads of its own would pay.
set "SHORT="
if /i "%~1"=="check" set "SHORT=-XX:+UseSerialGC -XX:TieredStopAtLevel=1"
if /i "%~1"=="outline" set "SHORT=-XX:+UseSerialGC -XX:TieredStopAtLevel=1"
"%JAVA%" %MEMORY% %SHORT% -jar "%JAR%" %*
exit /b %ERRORLEVEL%
:nojar
echo everypart: "%JAR%" is not there; build it with: mvn -DskipTests package 1>&2
exit /b 2
:nojava
echo everypart: Java is not there; install Java 17 or newer, or set JAVA_HOME 1>&2
exit /b 2
